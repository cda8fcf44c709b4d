import type { Bench } from "./bench.ts";
import type { Run } from "./run.ts";

/**
 * The bench with a run from a file of its own at hand again, so that something can be added to it.
 * It goes back into its file as any old run does.
 */
export function broughtBack(bench: Bench, run: Run): Bench {
  if (Object.hasOwn(bench.runs, run.id)) return bench;
  return {
    ...bench,
    runs: { ...bench.runs, [run.id]: run },
    pastRuns: bench.pastRuns.filter(({ id }) => id !== run.id),
  };
}
