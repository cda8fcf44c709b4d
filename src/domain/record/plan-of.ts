import type { Run } from "../session/run.ts";
import { type Instant, type Seconds, seconds } from "../units/quantity.ts";

export type PlannedSpan = { readonly from: Seconds; readonly to: Seconds };

/** The instant a run's times count from: its first pour, real or planned. */
export const firstPour = (run: Run): Instant =>
  run.stages.find(({ pourAt }) => pourAt !== undefined)?.pourAt ?? run.plannedAt;

/**
 * The run as it was meant, laid out from its first pour on: each bath begins in the middle of its
 * pour window, which opens as the bath before it ends. Baths that were skipped later are in it.
 *
 * @returns spans in s from the first pour, one a stage
 */
export function planOf(run: Run): readonly PlannedSpan[] {
  let pour = 0;
  return run.stages.map(({ time, timeMeant }) => {
    const from = pour + run.window / 2;
    const to = from + (timeMeant ?? time);
    pour = to;
    return { from: seconds(from), to: seconds(to) };
  });
}
