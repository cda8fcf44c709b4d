import type { Looks } from "../domain/reminders/looks.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Decided, decide } from "../domain/session/decide.ts";
import type { Instant } from "../domain/units/quantity.ts";

/**
 * What has come due. Where a reminder or the daily message cannot be worked out, the cues of the
 * runs come all the same: reminders stay as they are, and the fault is handed back beside them.
 */
export function decideCues(
  bench: Bench,
  now: Instant,
  looks: Looks,
): Decided & { readonly fault?: { readonly error: unknown } } {
  try {
    return decide(bench, now, looks);
  } catch (error) {
    const { reminders, dailyLook } = bench;
    const decided = decide({ ...bench, reminders: {}, dailyLook: { told: {} } }, now);
    return { ...decided, bench: { ...decided.bench, reminders, dailyLook }, fault: { error } };
  }
}
