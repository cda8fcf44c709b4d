import { isWaiting, type Roll } from "./roll.ts";

/** How the rolls of a bench are meant when they are spoken of. */
export type RollNames = {
  readonly byNumber: Pick<ReadonlyMap<number, string>, "get">;
  /** By name, lower case; several rolls may share one. */
  readonly byName: ReadonlyMap<string, readonly string[]>;
  /** Ids of those neither done nor dropped, by number. */
  readonly waiting: readonly string[];
};

const words = "one two three four five six seven eight nine ten eleven twelve".split(" ");

/** The name several rolls share: "beach" of "beach 2". */
export const sharedName = (name: string): string => name.replace(/ \d+$/, "");

/**
 * The numbers of all rolls, and their names: "beach", "beach 2", "beach two". A name means those
 * that wait; only where none of these has it, those that are done.
 */
export function rollNames(rolls: readonly Roll[]): RollNames {
  let byName: RollNames["byName"] | undefined;
  let waiting: RollNames["waiting"] | undefined;
  // Thousands of rolls, and most sentences name none: each is worked out when it is first asked for.
  return {
    byNumber: { get: (number) => numbered(rolls, number)?.id },
    get byName() {
      byName ??= new Map([
        ...named(rolls, ({ doneIn }) => doneIn !== undefined),
        ...named(rolls, isWaiting),
      ]);
      return byName;
    },
    get waiting() {
      waiting ??= rolls.filter(isWaiting).map(({ id }) => id);
      return waiting;
    },
  };
}

/** Rolls stand in the order of their numbers, as they were added; were it otherwise, one by one. */
function numbered(rolls: readonly Roll[], number: number): Roll | undefined {
  let low = 0;
  let high = rolls.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rolls[middle]?.number ?? 0) < number) low = middle + 1;
    else high = middle;
  }
  const found = rolls[low];
  return found?.number === number ? found : rolls.find((roll) => roll.number === number);
}

function named(
  rolls: readonly Roll[],
  counts: (roll: Roll) => boolean,
): ReadonlyMap<string, readonly string[]> {
  const byName = new Map<string, string[]>();
  const add = (name: string, id: string): void => {
    const known = byName.get(name);
    if (known === undefined) byName.set(name, [id]);
    else known.push(id);
  };
  for (const roll of rolls) {
    const { id, name } = roll;
    if (name === undefined || !counts(roll)) continue;
    add(name, id);
    const shared = sharedName(name);
    if (shared === name) continue;
    add(shared, id);
    const spelt = words[Number(name.slice(shared.length + 1)) - 1];
    if (spelt !== undefined) add(`${shared} ${spelt}`, id);
  }
  return byName;
}
