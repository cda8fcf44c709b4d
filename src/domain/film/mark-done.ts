import { ownValue } from "../own-value.ts";
import { isWater } from "../process/sheet.ts";
import type { Bench } from "../session/bench.ts";

/**
 * The rolls of a run are done when film really went into a bath that works on it, and wait again
 * when it is said that it never did. A rehearsal does no roll. Doing it twice changes nothing.
 */
export function markDone(bench: Bench, runId: string): Bench {
  const run = ownValue(bench.runs, runId);
  if (run === undefined || run.rehearsal !== undefined) return bench;
  if ((run.rolls ?? []).length === 0) return bench;
  const went =
    run.nothingIn !== true &&
    run.stages.some(({ inAt, kind, skipped }) => inAt !== undefined && !isWater(kind) && !skipped);
  let { rolls } = bench;
  for (const id of run.rolls ?? []) {
    const roll = rolls[id];
    if (roll === undefined) continue;
    if (went && roll.doneIn === undefined) rolls = { ...rolls, [id]: { ...roll, doneIn: runId } };
    if (!went && roll.doneIn === runId) {
      const { doneIn: _, ...waits } = roll;
      rolls = { ...rolls, [id]: waits };
    }
  }
  return rolls === bench.rolls ? bench : { ...bench, rolls };
}
