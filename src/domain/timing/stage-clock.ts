import { beatOffsets } from "../process/agitation.ts";
import type { Run, Stage } from "../session/run.ts";
import { type Instant, later, type Seconds, seconds } from "../units/quantity.ts";

/** From the end of a bath back to the moment the next bottle is fetched (common practice, no source). */
export const FETCH_LEAD = seconds(40);

/**
 * The instants of one stage. `start` is when the time counts from: the tank full, heard or assumed
 * to be the middle of the pour window (filling takes 10 to 20 s: NAVEDTRA 14209, Photography
 * (Basic), small-tank steps, read). `pourOut` lies inside the time, a drain before `end` (same
 * manual and SS0514, p. 2-13, read).
 */
export type StageClock = {
  readonly pour: Instant;
  readonly start: Instant;
  readonly pourOut: Instant;
  readonly end: Instant;
};

/**
 * Where a start is only assumed, a bath whose time is a minimum gets the half window on top, so
 * that it is never cut short; an exact bath keeps its time.
 */
export function stageClock(stage: Stage, pour: Instant, window: Seconds): StageClock {
  const half = window / 2;
  const heard = stage.inAt !== undefined && stage.plusMinus === undefined;
  const start = stage.inAt ?? later(pour, half);
  const margin = heard || stage.sense === "exact" ? 0 : half;
  const end = later(start, stage.time + margin);
  return { pour, start, pourOut: later(end, -stage.drain), end };
}

/**
 * The whole run laid out from what is known now: real instants where they are, planned ones where
 * they are not. A skipped stage has no clock. Without a first pour the given `from` is taken.
 */
export function layOut(run: Run, from: Instant): readonly (StageClock | undefined)[] {
  let pour = run.stages[0]?.pourAt ?? from;
  return run.stages.map((stage, index) => {
    if (stage.skipped === true) return undefined;
    // A bath that was put off is poured from now on, never in the past.
    const putOff = index === run.current && from > pour;
    const opens = stage.pourAt ?? (putOff ? from : pour);
    const planned = index > run.current && stage.inAt === undefined;
    const clock = stageClock(
      planned ? { ...stage, inAt: later(opens, run.window / 2) } : stage,
      opens,
      run.window,
    );
    pour = stage.outAt ?? clock.end;
    return clock;
  });
}

/**
 * The same as a plan to read: of a bath that is not poured yet its "in" is expected to be heard, the
 * first like all others.
 */
export const planned = (run: Run, from: Instant): readonly (StageClock | undefined)[] => {
  const { pourAt = from, inAt } = run.stages[run.current] ?? {};
  const ahead = inAt === undefined && pourAt >= from;
  return layOut(ahead ? { ...run, current: run.current - 1 } : run, from);
};

/** How long the first agitation lasts, s; continuous agitation stops for pouring out. */
export const firstAgitation = ({ agitation, time, drain }: Stage): Seconds =>
  seconds(Math.max(0, Math.min(agitation?.initial ?? 0, time - drain)));

/** Offsets from the start of the time at which a beat begins, s; all are over before the drain. */
export const beats = ({ agitation, time, drain }: Stage): readonly Seconds[] =>
  agitation === undefined ? [] : beatOffsets(agitation, seconds(time - drain));
