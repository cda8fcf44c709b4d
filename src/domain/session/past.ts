import { oncePer } from "../once-per.ts";
import type { Bench } from "./bench.ts";
import type { Run } from "./run.ts";

/** Runs that left the bench for files of their own, as a command that looks back sees them. */
export type Past = {
  /** Oldest first. */
  readonly runs: readonly Run[];
  /** A sentence for each record that could not be read; it is left as it is. */
  readonly damaged: readonly string[];
};

export const noPast: Past = { runs: [], damaged: [] };

/** Every run with film a bench has ever had, at hand or in a file, by the time of its plan. */
export const allRuns = ({ runs }: Bench, past: Past): readonly Run[] => together(past, runs);

/** Thousands of them, and the same ones at every question. */
const together = oncePer((past: Past, runs: Bench["runs"]): readonly Run[] => {
  const here = Object.values(runs).filter(({ rehearsal }) => rehearsal === undefined);
  const there = past.runs.filter(({ id }) => !Object.hasOwn(runs, id));
  return [...there, ...here].toSorted((a, b) => a.plannedAt - b.plannedAt);
});

/** The past with runs that have just left the bench, for the first time or again. */
export function withArchived(past: Past, runs: readonly Run[]): Past {
  const left = new Set(runs.map(({ id }) => id));
  return { ...past, runs: [...past.runs.filter(({ id }) => !left.has(id)), ...runs] };
}
