import { type Instant, instant, later } from "../../domain/units/quantity.ts";
import { readInstant } from "./options.ts";

const SECONDS: Readonly<Record<string, number>> = { d: 86400, h: 3600, m: 60, s: 1 };

/** Where a line like `@+3m15s` or `@2026-11-28T09:00` moves the clock to, or why it cannot. */
export function readMove(
  line: string,
  now: Instant,
  zone: string,
): { readonly to: Instant } | { readonly wrong: string } {
  const text = line.slice(1).trim();
  if (text.startsWith("+")) {
    const pieces = [...text.slice(1).matchAll(/(\d+(?:\.\d+)?)([dhms])/g)];
    if (pieces.length === 0 || pieces.map(([all]) => all).join("") !== text.slice(1)) {
      return { wrong: `"${line}" does not say how far; give it like @+3m15s.` };
    }
    const by = pieces.reduce((sum, [, n, unit]) => sum + Number(n) * (SECONDS[unit ?? ""] ?? 0), 0);
    if (!Number.isFinite(by) || by > 400 * 86400) {
      return { wrong: `"${line}" is more than 400 days; move in smaller steps.` };
    }
    return { to: instant(Math.round(later(now, by))) };
  }
  const to = readInstant(text, zone);
  if (to === undefined)
    return { wrong: `"${line}" is no instant; give it like @2026-11-28T09:00.` };
  if (to < now) return { wrong: `"${line}" lies in the past; the clock only moves forward.` };
  return { to };
}
