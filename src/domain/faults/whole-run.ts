import { isDeveloper } from "../process/sheet.ts";
import type { Run } from "../session/run.ts";
import { secondsBetween } from "../units/quantity.ts";

/** Baths of one tank follow one another within this, s (own bound, no source). */
const FOLLOWS = 2 * 3600;

const develops = (run: Run): boolean => run.stages.some(({ kind }) => isDeveloper(kind));
const begins = (run: Run): number => run.stages[0]?.inAt ?? run.plannedAt;

/** One run after the other as one: stages, readings, notes and counts in a row. */
function joined(first: Run, second: Run): Run {
  const offset = first.stages.length;
  return {
    ...first,
    film: first.film.length > 0 ? first.film : second.film,
    rolls: [...new Set([...(first.rolls ?? []), ...(second.rolls ?? [])])],
    stages: [...first.stages, ...second.stages],
    readings: [
      ...first.readings,
      ...second.readings.map((reading) => ({ ...reading, stage: reading.stage + offset })),
    ],
    notes: [...first.notes, ...second.notes],
    counted: [...first.counted, ...second.counted],
    quiet: first.quiet || second.quiet,
    push: first.push ?? second.push,
    firstLook: second.firstLook ?? first.firstLook,
    after: { ...first.after, ...second.after },
    troubles: [...(first.troubles ?? []), ...(second.troubles ?? [])],
    endedAt: second.endedAt,
  };
}

/**
 * What happened to one load of film: where baths were started one by one in the same tank, the
 * runs around the one that is asked about are joined to it. A second developer is a second load.
 */
export function wholeRun(run: Run, all: readonly Run[]): Run {
  const row = all
    .filter(
      ({ tank, rehearsal, nothingIn }) =>
        tank.toLowerCase() === run.tank.toLowerCase() &&
        rehearsal === undefined &&
        nothingIn !== true,
    )
    .toSorted((a, b) => begins(a) - begins(b));
  const index = row.findIndex(({ id }) => id === run.id);
  if (index < 0) return run;
  const near = (before: Run | undefined, after: Run | undefined): boolean =>
    before?.endedAt !== undefined &&
    after !== undefined &&
    secondsBetween(before.endedAt, after.plannedAt) <= FOLLOWS;
  let whole = run;
  for (let at = index - 1; at >= 0 && !develops(whole); at -= 1) {
    const before = row[at];
    if (before === undefined || !near(before, row[at + 1])) break;
    whole = joined(before, whole);
  }
  for (let at = index + 1; at < row.length; at += 1) {
    const after = row[at];
    if (after === undefined || !near(row[at - 1], after)) break;
    if (develops(after) && develops(whole)) break;
    whole = joined(whole, after);
  }
  return { ...whole, id: run.id, tank: run.tank };
}
