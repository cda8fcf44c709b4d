/**
 * A bench's files come in generations: `snapshot-N.json` is the whole record, `journal-N.jsonl`
 * the commits made after it. Generation N+1 begins with a new snapshot; N is kept until N+2 is
 * safe, so that a damaged snapshot can be made again from the one before and its journal.
 */
export const snapshotName = (generation: number): string => `snapshot-${generation}.json`;
export const journalName = (generation: number): string => `journal-${generation}.jsonl`;

export type Generations = {
  /** Rising. */
  readonly snapshots: readonly number[];
  readonly journals: readonly number[];
  readonly highest: number;
};

const NAME = /^(snapshot|journal)-([1-9]\d{0,14})\.(json|jsonl)$/;

/** The generation a file of the bench belongs to; undefined for any other file. */
export function generationOf(name: string): number | undefined {
  const generation = Number(NAME.exec(name)?.[2]);
  return name === snapshotName(generation) || name === journalName(generation)
    ? generation
    : undefined;
}

export function generationsIn(names: readonly string[]): Generations {
  const snapshots: number[] = [];
  const journals: number[] = [];
  for (const name of names) {
    const generation = generationOf(name);
    if (generation === undefined) continue;
    (name === snapshotName(generation) ? snapshots : journals).push(generation);
  }
  const rising = (one: number, other: number) => one - other;
  return {
    snapshots: snapshots.sort(rising),
    journals: journals.sort(rising),
    highest: Math.max(0, ...snapshots, ...journals),
  };
}
