import { type Instant, instant, later } from "../../domain/units/quantity.ts";
import { LAST_YEAR, readInstant } from "./read-instant.ts";

const SECONDS: Readonly<Record<string, number>> = { d: 86400, h: 3600, m: 60, s: 1 };

/** No single step is longer than this, in days: further is a slip of the finger. */
const LONGEST = 400;

const END = Temporal.Instant.from(`${LAST_YEAR}-12-31T23:59:59Z`).epochMilliseconds;

/** Where a line like `@+3m15s` or `@2026-11-28T09:00` moves the clock to, or why it cannot. */
export function readMove(
  line: string,
  now: Instant,
  zone: string,
): { readonly to: Instant } | { readonly wrong: string } {
  const read = `"${line.length > 60 ? `${line.slice(0, 57)}...` : line}"`;
  const text = line.slice(1).trim();
  if (text.startsWith("+")) {
    const pieces = [...text.slice(1).matchAll(/(\d+(?:\.\d+)?)([dhms])/g)];
    if (pieces.length === 0 || pieces.map(([all]) => all).join("") !== text.slice(1)) {
      return { wrong: `${read} does not say how far; give it like @+3m15s.` };
    }
    const by = pieces.reduce((sum, [, n, unit]) => sum + Number(n) * (SECONDS[unit ?? ""] ?? 0), 0);
    if (!Number.isFinite(by) || by > LONGEST * 86400) {
      return { wrong: `${read} is more than ${LONGEST} days; move in smaller steps.` };
    }
    const to = instant(Math.round(later(now, by)));
    return to > END
      ? { wrong: `${read} goes beyond the year ${LAST_YEAR}; stay before it.` }
      : { to };
  }
  const to = readInstant(text, zone);
  if (to === undefined) return { wrong: `${read} is no instant; give it like @2026-11-28T09:00.` };
  if (to < now) return { wrong: `${read} lies in the past; the clock only moves forward.` };
  return { to };
}
