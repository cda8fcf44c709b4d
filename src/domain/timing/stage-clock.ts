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

/** A day in a bath agitated every minute has no more. */
const MOST_BEATS = 1500;

/** How long the first agitation lasts, s; continuous agitation stops for pouring out. */
export const firstAgitation = ({ agitation, time, drain }: Stage): Seconds =>
  seconds(Math.max(0, Math.min(agitation?.initial ?? 0, time - drain)));

/**
 * Offsets from the start of the time at which a beat begins, s: 0 for the first agitation, then
 * the multiples of `every` after it that are over before the drain begins.
 */
export function beats(stage: Stage): readonly Seconds[] {
  const { agitation } = stage;
  if (agitation === undefined) return [];
  const offsets: Seconds[] = [seconds(0)];
  const { every, each, initial } = agitation;
  if (every === undefined || every <= 0) return offsets;
  const drains = stage.time - stage.drain;
  for (let n = Math.floor(initial / every) + 1; offsets.length < MOST_BEATS; n += 1) {
    const offset = n * every;
    if (offset >= drains || offset + (each ?? 0) > drains) break;
    offsets.push(seconds(offset));
  }
  return offsets;
}
