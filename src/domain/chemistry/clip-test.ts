import type { Bottle } from "./bottle.ts";

/** The shortest time a leader took to clear in this bottle, s: what it could do when fresh. */
export function freshClearing({ tests }: Pick<Bottle, "tests">): number | undefined {
  const times = (tests ?? []).flatMap(({ clearing }) => (clearing === undefined ? [] : [clearing]));
  return times.length === 0 ? undefined : Math.min(...times);
}

/** A fixer is out when its clearing time has doubled (NAVEDTRA 14209, p. 249, read in excerpt). */
export const isSpent = (clearing: number, fresh: number): boolean => clearing >= 2 * fresh;
