import { type EveningBottle, lasts, loadMinutes, type Supply } from "./evening.ts";
import type { AbleRoll } from "./evening-problem.ts";

/** A bottle as the search looks at it. */
export type ShelfBottle = {
  readonly bottle: EveningBottle;
  /** Units it can take; infinite where it could take all the film there is. */
  readonly left: number;
  /** mL. */
  readonly holds: number;
  readonly doubtful: boolean;
  /** A roll that does not matter can go first, and so it must. */
  readonly needsTest: boolean;
};

export type Process = {
  readonly supply: Supply;
  /** By bath, the bottles it may be poured from, by their place on the shelf. */
  readonly baths: readonly (readonly number[])[];
  /** Units all its bottles can take, bath by bath: the least of these sums. */
  readonly all: number;
  /** Units and mL the largest single load can have. */
  readonly most: number;
  readonly holds: number;
};

export type Shelf = {
  readonly processes: readonly Process[];
  readonly bottles: readonly ShelfBottle[];
  /** Bottles of one bath that are the same for every rule, where there are two or more. */
  readonly alike: readonly (readonly number[])[];
};

const SAME = 1e-9;
const or = (value: number | undefined): number => value ?? Number.POSITIVE_INFINITY;

/** The bottles of an evening, without those no best plan needs. */
export function shelve(
  supplies: readonly Supply[],
  rolls: readonly AbleRoll[],
  minutes: number,
): Shelf {
  const bottles: ShelfBottle[] = [];
  const alike = new Map<string, number[]>();
  const processes = supplies.map((supply, process): Process => {
    const own = rolls.filter(({ marked }) => marked === supply.process);
    const pushes = [...new Set(own.map(({ push }) => push))];
    const baths = supply.baths.map((bath, at) =>
      needed(
        bath.map((bottle) => shelfBottle(supply, at, bottle, own, minutes)),
        own,
        pushes,
      ).map((one) => {
        const id = bottles.push(one) - 1;
        const key = [process, at, one.left, one.holds, one.doubtful, one.needsTest]
          .concat(pushes.map((push) => lasts(one.bottle, push)))
          .join("|");
        const same = alike.get(key);
        if (same === undefined) alike.set(key, [id]);
        else same.push(id);
        return id;
      }),
    );
    const over = (value: (one: ShelfBottle) => number, join: (values: number[]) => number) =>
      Math.min(
        Number.POSITIVE_INFINITY,
        ...baths.map((bath) =>
          join(bath.flatMap((id) => (bottles[id] === undefined ? [] : [value(bottles[id])]))),
        ),
      );
    return {
      supply,
      baths,
      all: over(
        ({ left }) => left,
        (lefts) => lefts.reduce((sum, left) => sum + left, 0),
      ),
      most: over(
        ({ left }) => left,
        (lefts) => Math.max(...lefts),
      ),
      holds: over(
        ({ holds }) => holds,
        (volumes) => Math.max(...volumes),
      ),
    };
  });
  return { processes, bottles, alike: [...alike.values()].filter(({ length }) => length > 1) };
}

function shelfBottle(
  supply: Supply,
  at: number,
  bottle: EveningBottle,
  rolls: readonly AbleRoll[],
  minutes: number,
): ShelfBottle {
  const all = rolls.reduce((sum, roll) => sum + roll.units, 0);
  const takes = (one: EveningBottle, roll: AbleRoll): boolean =>
    roll.volume <= or(one.volume) && roll.units <= or(one.unitsLeft) + SAME;
  const couldTest = (roll: AbleRoll): boolean => {
    if (roll.important || roll.doubtful || !takes(bottle, roll)) return false;
    const others = supply.baths.flatMap((bath, other) =>
      other === at
        ? [bottle]
        : (bath
            .filter((one) => takes(one, roll))
            .toSorted((a, b) => lasts(a, roll.push) - lasts(b, roll.push))[0] ?? []),
    );
    return loadMinutes(supply, others, roll.push) <= minutes;
  };
  return {
    bottle,
    left: or(bottle.unitsLeft) >= all - SAME ? Number.POSITIVE_INFINITY : or(bottle.unitsLeft),
    holds: or(bottle.volume),
    doubtful: bottle.doubtful,
    needsTest: bottle.doubtful && rolls.some(couldTest),
  };
}

/**
 * Of one bath's bottles those that a plan can gain from. One is left out that can take no roll;
 * that has as many others as there are rolls which are at least as good (there is always one of
 * them to pour instead); or that has a single such one, sound and enough for everything, where
 * all rolls matter alike, so that no bottle need be kept young.
 */
function needed(
  bath: readonly ShelfBottle[],
  rolls: readonly AbleRoll[],
  pushes: readonly number[],
): readonly ShelfBottle[] {
  const useful = bath.filter(({ left, holds }) =>
    rolls.some((roll) => roll.units <= left + SAME && roll.volume <= holds),
  );
  const oneMatter = new Set(rolls.map(({ important }) => important)).size < 2;
  return useful.filter((bottle, at) => {
    let better = 0;
    for (const [other, one] of useful.entries()) {
      if (other === at || !asGood(one, bottle, pushes)) continue;
      if (!oneMatter && one.needsTest !== bottle.needsTest) continue;
      if (other > at && asGood(bottle, one, pushes)) continue;
      if (oneMatter && !one.doubtful && one.left === Number.POSITIVE_INFINITY) return false;
      better += 1;
    }
    return better < rolls.length;
  });
}

const asGood = (one: ShelfBottle, other: ShelfBottle, pushes: readonly number[]): boolean =>
  one.left >= other.left &&
  one.holds >= other.holds &&
  (!one.doubtful || (other.doubtful && one.needsTest === other.needsTest)) &&
  pushes.every((push) => lasts(one.bottle, push) <= lasts(other.bottle, push));
