/** Lots looked at before it is given up: never reached with the few formats that film has. */
const MOST = 20_000;
const SAME = 1e-6;

/**
 * Film laid out over bottles, no roll split between two: as much as goes into the first, then the
 * next; where that leaves some out, every other way.
 *
 * @param rolls units of each roll or sheet
 * @param lefts units each bottle can still take, in the order in which they are best used up
 * @returns units by bottle; undefined when it cannot be done
 */
export function shareOut(
  rolls: readonly number[],
  lefts: readonly number[],
): readonly number[] | undefined {
  const biggest = rolls.toSorted((a, b) => b - a);
  const after = biggest.map((_, at) => biggest.slice(at).reduce((sum, one) => sum + one, 0));
  const taken = lefts.map(() => 0);
  const dead = new Set<string>();
  const place = (at: number): boolean => {
    const roll = biggest[at];
    if (roll === undefined) return true;
    const rooms = lefts.map((left, bottle) => left - (taken[bottle] ?? 0));
    const room = rooms.reduce((sum, one) => sum + Math.max(0, one), 0);
    if (room < (after[at] ?? 0) - SAME) return false;
    const key = `${at} ${rooms.map((one) => one.toFixed(6)).join()}`;
    if (dead.has(key) || dead.size > MOST) return false;
    for (const [bottle, left] of rooms.entries()) {
      if (roll > left + SAME) continue;
      taken[bottle] = (taken[bottle] ?? 0) + roll;
      if (place(at + 1)) return true;
      taken[bottle] = (taken[bottle] ?? 0) - roll;
    }
    dead.add(key);
    return false;
  };
  return place(0) ? taken : undefined;
}
