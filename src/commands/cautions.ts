import { bathCautions } from "../data/safety.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Instant, later } from "../domain/units/quantity.ts";

/** A caution is said once in this long, s: when its bath is first touched in a session. */
const SESSION = 12 * 3600;

/**
 * What a person should hear before touching these baths now, and the bench that remembers having
 * said it. `doing` picks what matters: gas in a closed tank is no matter while mixing.
 */
export function cautionsFor(
  bench: Bench,
  kinds: readonly string[],
  doing: "mix" | "run",
  now: Instant,
): { readonly cautions: readonly string[]; readonly cautioned: Bench["cautioned"] } {
  const cautions: string[] = [];
  const cautioned = { ...bench.cautioned };
  for (const kind of new Set(kinds.map((one) => (one.endsWith("developer") ? "developer" : one)))) {
    for (const [index, { text, when }] of (bathCautions[kind] ?? []).entries()) {
      const key = `${kind} ${index}`;
      const last = ownValue(bench.cautioned, key);
      if (!when.includes(doing) || (last !== undefined && now < later(last, SESSION))) continue;
      cautions.push(text);
      cautioned[key] = now;
    }
  }
  return { cautions, cautioned };
}
