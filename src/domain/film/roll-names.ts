import { isWaiting, type Roll } from "./roll.ts";

/** How the rolls of a bench are meant when they are spoken of. */
export type RollNames = {
  readonly byNumber: ReadonlyMap<number, string>;
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
  const waiting = rolls.filter(isWaiting);
  const done = named(rolls.filter(({ doneIn }) => doneIn !== undefined));
  return {
    byNumber: new Map(rolls.map(({ number, id }) => [number, id])),
    byName: new Map([...done, ...named(waiting)]),
    waiting: waiting.map(({ id }) => id),
  };
}

function named(rolls: readonly Roll[]): ReadonlyMap<string, readonly string[]> {
  const byName = new Map<string, string[]>();
  const add = (name: string, id: string): void => {
    const known = byName.get(name);
    if (known === undefined) byName.set(name, [id]);
    else known.push(id);
  };
  for (const { id, name } of rolls) {
    if (name === undefined) continue;
    add(name, id);
    const shared = sharedName(name);
    if (shared === name) continue;
    add(shared, id);
    const spelt = words[Number(name.slice(shared.length + 1)) - 1];
    if (spelt !== undefined) add(`${shared} ${spelt}`, id);
  }
  return byName;
}
