import { openedOn } from "../chemistry/fill.ts";
import { tanksAfterCount, tanksDone } from "../chemistry/work-before.ts";
import { filmUnits } from "../film/load.ts";
import { markDone } from "../film/mark-done.ts";
import { ownValue } from "../own-value.ts";
import { dateOf } from "../timing/clock-text.ts";
import { type Units, units } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { settleTimes } from "./follow-bottles.ts";
import type { Run } from "./run.ts";

/**
 * Adds a run's film to each bottle it has really been poured from, once per run: film counts when
 * "in" was heard or assumed, never when it was only planned or rehearsed. Doing it twice changes
 * nothing. A developer that has just gone in keeps the time for what its bottle had done before.
 */
export const countFilm = (bench: Bench, runId: string): Bench =>
  markDone(countBottles(settleTimes(bench, runId), runId), runId);

function countBottles(bench: Bench, runId: string): Bench {
  const run = ownValue(bench.runs, runId);
  if (run === undefined || run.nothingIn === true || run.rehearsal !== undefined) return bench;
  const load = filmUnits(run.film);
  let bottles = bench.bottles;
  const counted = [...run.counted];
  for (const stage of run.stages) {
    const id = stage.bottle;
    if (id === undefined || stage.inAt === undefined || load === 0) continue;
    const bottle = bottles[id];
    if (bottle === undefined || counted.some((entry) => entry.bottle === id)) continue;
    const after = units(bottle.used + load);
    counted.push({ bottle: id, before: bottle.used, after });
    const opened = openedOn(bottle, dateOf(stage.inAt, bench.zone));
    const { tanks, assumed } = tanksDone(bottle);
    const batches = { batches: tanks + 1, ...(assumed ? { batchesAssumed: true } : {}) };
    bottles = { ...bottles, [id]: { ...opened, used: after, ...batches } };
  }
  if (counted.length === run.counted.length) return bench;
  return { ...bench, bottles, runs: { ...bench.runs, [runId]: { ...run, counted } } };
}

/**
 * The user says that the film of a run never went in: every bottle gets back what the run counted
 * for it, and nothing will be counted for it again.
 */
export function giveBack(bench: Bench, runId: string): Bench {
  const run = ownValue(bench.runs, runId);
  if (run === undefined) return bench;
  let { bottles } = bench;
  for (const { bottle: id, before, after } of run.counted) {
    const bottle = bottles[id];
    if (bottle === undefined) continue;
    const used = units(Math.max(0, bottle.used - (after - before)));
    const batches = Math.max(0, (bottle.batches ?? 0) - 1);
    bottles = { ...bottles, [id]: { ...bottle, used, batches } };
  }
  const empty: Run = { ...run, counted: [], nothingIn: true, countConfirmed: true };
  return markDone({ ...bench, bottles, runs: { ...bench.runs, [runId]: empty } }, runId);
}

/** Who sets a bottle's count by hand has confirmed what ended runs counted for it. */
const confirmed = (bench: Bench, bottleId: string): Bench["runs"] =>
  Object.fromEntries(
    Object.entries(bench.runs).map(([id, run]) => [
      id,
      run.endedAt !== undefined && run.counted.some(({ bottle }) => bottle === bottleId)
        ? { ...run, countConfirmed: true }
        : run,
    ]),
  );

/**
 * A bottle's count as its user knows it. When it corrects a run, the other bottles of that run are
 * changed by the same difference: the same film went through all of them.
 */
export function correctCount(
  bench: Bench,
  runId: string | undefined,
  bottleId: string,
  used: Units,
): Bench {
  const corrected = ownValue(bench.bottles, bottleId);
  const run = runId === undefined ? undefined : ownValue(bench.runs, runId);
  if (corrected === undefined) return bench;
  const by = used - corrected.used;
  const touched = new Set([bottleId, ...(run?.counted ?? []).map(({ bottle }) => bottle)]);
  let { bottles } = bench;
  for (const id of touched) {
    const bottle = bottles[id];
    if (bottle === undefined) continue;
    const now = id === bottleId ? used : units(Math.max(0, bottle.used + by));
    bottles = { ...bottles, [id]: { ...bottle, used: now } };
  }
  if (run === undefined) {
    // Nobody said in how many tanks: what is not known of them is taken to the cautious end.
    const { batchesAssumed: _, ...rest } = { ...corrected, used };
    bottles = { ...bottles, [bottleId]: { ...rest, ...tanksAfterCount(corrected, used) } };
    return { ...bench, bottles, runs: confirmed(bench, bottleId) };
  }
  const counted = run.counted.map((entry) => ({
    ...entry,
    after: units(Math.max(entry.before, entry.after + by)),
  }));
  const known: Run = { ...run, counted, countConfirmed: true };
  return { ...bench, bottles, runs: { ...bench.runs, [run.id]: known } };
}
