import type { Origin } from "../origin.ts";
import { type Celsius, type CelsiusDifference, celsiusDifference } from "../units/quantity.ts";
import { showCelsius, showDifference } from "../units/show.ts";

/**
 * From one bath to the next film should not jump further, °C. Sources disagree: above 5 °F
 * (2.8 °C) the emulsion wrinkles (an army manual), 4 °C at most (a home worker), rare with modern
 * colour film, none seen in black-and-white. A bench may set its own.
 */
export const JUMP_LIMIT: { readonly value: CelsiusDifference; readonly origin: Origin } = {
  value: celsiusDifference(3),
  origin: { kind: "common practice", source: "sources disagree, from 2.8 °C to no limit" },
};

export type BathAt = { readonly bath: string; readonly temperature: Celsius };
export type Jump = {
  readonly from: BathAt;
  readonly to: BathAt;
  /** °C, below 0 where it grows colder. */
  readonly by: CelsiusDifference;
};

/**
 * The jumps between neighbours that go beyond a limit.
 *
 * @param baths  in the order film goes through them; those with no known temperature left out
 * @param limit  °C, up or down
 */
export function jumps(
  baths: readonly BathAt[],
  limit: CelsiusDifference = JUMP_LIMIT.value,
): readonly Jump[] {
  return baths.slice(1).flatMap((to, index) => {
    const from = baths[index];
    if (from === undefined) return [];
    const by = celsiusDifference(to.temperature - from.temperature);
    return Math.abs(by) > limit + 1e-9 ? [{ from, to, by }] : [];
  });
}

export const sayJump = ({ from, to, by }: Jump): string =>
  `From the ${from.bath} at ${showCelsius(from.temperature)} to the ${to.bath} at ${showCelsius(to.temperature)} is a jump of ${showDifference(celsiusDifference(Math.abs(by)))}: bring them closer.`;
