import { stageClock } from "../timing/stage-clock.ts";
import { type Instant, instant } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import { currentStage, type Run } from "./run.ts";

/**
 * A change taken back does not make cues untold: what was told of a bath since it went in stays
 * told. A pour-out that has come down to this moment, or before it, must still be said.
 *
 * @param before  with the change
 * @param after   without it
 */
export function keepTold(before: Bench, after: Bench, now: Instant): Bench {
  const runs = Object.entries(after.runs).map(([id, run]) => {
    const was = before.runs[id];
    return [id, was === undefined ? run : told(was, run, now)] as const;
  });
  const same = runs.every(([id, run]) => run === after.runs[id]);
  return same ? after : { ...after, runs: Object.fromEntries(runs) };
}

function told(was: Run, run: Run, now: Instant): Run {
  const stage = currentStage(run);
  const inSame =
    stage?.inAt !== undefined &&
    was.current === run.current &&
    currentStage(was)?.inAt === stage.inAt;
  if (!inSame || was.cuedUntil <= run.cuedUntil) return run;
  const { pourOut } = stageClock(stage, stage.pourAt ?? stage.inAt ?? now, run.window);
  const until = pourOut <= now ? Math.min(was.cuedUntil, pourOut) : was.cuedUntil;
  return { ...run, cuedUntil: instant(Math.max(run.cuedUntil, until)) };
}
