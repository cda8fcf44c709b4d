import { wantsLook } from "../record/wants-look.ts";
import type { Bench } from "./bench.ts";
import { isLive, type Run } from "./run.ts";
import { touchedBy } from "./touched.ts";

/** Ended runs a bench keeps at hand; the rest stand in files of their own. */
const AT_HAND = 8;

/** Ended rehearsals a bench keeps, to be looked at; older ones are let go, since nothing counts. */
const REHEARSALS_AT_HAND = 2;

const oldest = (runs: readonly Run[], keep: number): readonly Run[] =>
  runs.toSorted((a, b) => (a.endedAt ?? 0) - (b.endedAt ?? 0)).slice(0, -keep);

/**
 * The runs that may leave a bench, oldest first, and the bench without them. A rehearsal leaves no
 * file and no record behind.
 */
export function archiveOldRuns(bench: Bench): {
  readonly bench: Bench;
  readonly runs: readonly Run[];
} {
  const ended = Object.values(bench.runs).filter((run) => !isLive(run));
  const rehearsed = ended.filter(({ rehearsal }) => rehearsal !== undefined);
  const leaving = oldest(
    ended.filter(({ rehearsal }) => rehearsal === undefined),
    AT_HAND,
  );
  const gone = new Set([...leaving, ...oldest(rehearsed, REHEARSALS_AT_HAND)].map(({ id }) => id));
  if (gone.size === 0) return { bench, runs: [] };
  return {
    runs: leaving,
    bench: {
      ...bench,
      runs: Object.fromEntries(Object.entries(bench.runs).filter(([id]) => !gone.has(id))),
      pastRuns: [
        ...bench.pastRuns,
        ...leaving.map((run) => {
          const { id, title, tank, plannedAt } = run;
          const unseen = wantsLook(run) ? { unseen: run.endedAt } : {};
          return { id, title, tank, plannedAt, touched: touchedBy(run), ...unseen };
        }),
      ].toSorted((one, other) => one.plannedAt - other.plannedAt),
    },
  };
}
