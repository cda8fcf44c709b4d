import type { Run } from "../domain/session/run.ts";
import { secondsBetween } from "../domain/units/quantity.ts";

/** Runs that ended within this of the latest are of the same evening, s (own bound, no source). */
const EVENING = 12 * 3600;

/** Runs in which film really met a bath, the latest first. */
const realRuns = (runs: readonly Run[]): readonly Run[] =>
  runs
    .filter(
      ({ rehearsal, nothingIn, stages }) =>
        rehearsal === undefined &&
        nothingIn !== true &&
        stages.some(({ inAt }) => inAt !== undefined),
    )
    .toSorted((a, b) => b.plannedAt - a.plannedAt);

export const NO_RUN = "none";

export type RunMeant =
  | { readonly run: string }
  /** Several tanks of one evening: one of them is meant. */
  | { readonly tanks: readonly { readonly tank: string; readonly run: string }[] };

/** The run somebody speaks of: of the named tank, or the latest; `NO_RUN` where there is none. */
export function runSpokenOf(runs: readonly Run[], tank: string | undefined): RunMeant {
  if (tank !== undefined) {
    const named = realRuns(runs).find((run) => run.tank.toLowerCase() === tank.toLowerCase());
    return { run: named?.id ?? NO_RUN };
  }
  const [latest, ...others] = realRuns(runs);
  if (latest === undefined) return { run: NO_RUN };
  const tanks = [latest];
  for (const run of others) {
    if (secondsBetween(run.plannedAt, latest.plannedAt) > EVENING) break;
    if (!tanks.some((one) => one.tank.toLowerCase() === run.tank.toLowerCase())) tanks.push(run);
  }
  return tanks.length === 1
    ? { run: latest.id }
    : { tanks: tanks.map((run) => ({ tank: run.tank, run: run.id })) };
}
