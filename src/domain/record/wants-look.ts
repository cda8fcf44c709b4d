import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { type Instant, secondsBetween } from "../units/quantity.ts";

/** A film nobody has looked at this long after its run, days, is not asked about any more: our own bound. */
export const LOOK_FORGOTTEN = 14;

/** Film that came out of a run and that nobody has looked at. */
export const wantsLook = (run: Run): run is Run & { endedAt: Instant } =>
  run.endedAt !== undefined &&
  run.ending !== "stopped" &&
  run.rehearsal === undefined &&
  run.nothingIn !== true &&
  run.firstLook === undefined &&
  run.stages.some(({ inAt }) => inAt !== undefined);

/** Runs put into files before anybody had looked at their film, and not too long ago, latest last. */
export const unseenInFiles = (bench: Bench, now: Instant): Bench["pastRuns"] =>
  bench.pastRuns.filter(
    ({ unseen }) => unseen !== undefined && secondsBetween(unseen, now) <= LOOK_FORGOTTEN * 86_400,
  );
