import type { Bench } from "./bench.ts";
import { isLive, type Run } from "./run.ts";
import { touchedBy } from "./touched.ts";

/** Ended runs a bench keeps at hand; the rest stand in files of their own. */
const AT_HAND = 8;

/** The runs that may leave a bench, oldest first, and the bench without them. */
export function archiveOldRuns(bench: Bench): {
  readonly bench: Bench;
  readonly runs: readonly Run[];
} {
  const ended = Object.values(bench.runs).filter((run) => !isLive(run));
  if (ended.length <= AT_HAND) return { bench, runs: [] };
  const leaving = ended
    .toSorted((a, b) => (a.endedAt ?? 0) - (b.endedAt ?? 0))
    .slice(0, ended.length - AT_HAND);
  const gone = new Set(leaving.map(({ id }) => id));
  return {
    runs: leaving,
    bench: {
      ...bench,
      runs: Object.fromEntries(Object.entries(bench.runs).filter(([id]) => !gone.has(id))),
      pastRuns: [
        ...bench.pastRuns,
        ...leaving.map((run) => {
          const { id, title, tank, plannedAt } = run;
          return { id, title, tank, plannedAt, touched: touchedBy(run) };
        }),
      ],
    },
  };
}
