import { justAfter, nextStage } from "../timing/cues.ts";
import { stageClock } from "../timing/stage-clock.ts";
import { type Instant, later, type Seconds, secondsBetween } from "../units/quantity.ts";
import { finish, leave } from "./advance.ts";
import { currentStage, type Run, type Stage, withStage } from "./run.ts";

/** What the words at the sink do to a run. Each returns the run after the word; none looks at a clock. */

/** "ready": the pour window opens now. */
export const openWindow = (run: Run, now: Instant): Run => ({
  ...withStage(run, run.current, { pourAt: now }),
  cuedUntil: justAfter(now),
});

/** "wait": nobody pours until "ready". Only while no film is wet in this stage. */
export const putOff = (run: Run): Run => ({
  ...run,
  stages: run.stages.map((stage, index) => (index === run.current ? withoutPour(stage) : stage)),
});

function withoutPour(stage: Stage): Stage {
  const { pourAt: _, ...rest } = stage;
  return rest;
}

/** "in": the tank is full and the time counts from now. */
export function pouredIn(run: Run, now: Instant): Run {
  const stage = currentStage(run);
  if (stage === undefined) return run;
  const pourAt = stage.pourAt === undefined || stage.pourAt > now ? now : stage.pourAt;
  const { plusMinus: _, ...known } = stage;
  return {
    ...run,
    stages: run.stages.map((other, index) =>
      index === run.current ? { ...known, pourAt, inAt: now } : other,
    ),
    cuedUntil: justAfter(now),
  };
}

/** "out": film leaves this bath. After the last one the run is done. */
export function pouredOut(run: Run, now: Instant): Run {
  const left = leave(run, now, false);
  return nextStage(run, run.current) === undefined
    ? finish(left, now, "done")
    : { ...left, cuedUntil: justAfter(now) };
}

/** The bath before the present one, when the clock alone took it for out. */
function leftByClock(run: Run): number | undefined {
  for (let index = run.current - 1; index >= 0; index -= 1) {
    const stage = run.stages[index];
    if (stage === undefined || stage.skipped === true) continue;
    return stage.outByClock === true ? index : undefined;
  }
  return undefined;
}

/** Is "out" still news about the bath before, which only the clock took for out? */
export const awaitsOut = (run: Run): boolean => leftByClock(run) !== undefined;

/** "out", heard after the clock had moved on: the bath before left now, and the pour begins now. */
export function confirmOut(run: Run, now: Instant): Run {
  const before = leftByClock(run);
  if (before === undefined) return run;
  return openWindow(
    {
      ...run,
      stages: run.stages.map((stage, index) =>
        index === before ? outNow(stage, now) : index === run.current ? notIn(stage) : stage,
      ),
    },
    now,
  );
}

/** A start that was only assumed is no start: the film was still in the bath before. */
function notIn(stage: Stage): Stage {
  const { inAt: _, plusMinus: __, ...rest } = stage;
  return rest;
}

/** How long after the clock ended a run "out" still confirms its end, s. */
const END_NEWS = 300;

/** A run the clock ended a moment ago: "out" is news about its last bath. */
export const awaitsEnd = (run: Run, now: Instant): boolean =>
  run.ending === "by the clock" && run.endedAt !== undefined && now <= later(run.endedAt, END_NEWS);

/** "out" after the last bath: the run is done and its end is confirmed. */
export function confirmEnd(run: Run, now: Instant): Run {
  const last = run.stages.findLastIndex((stage) => stage.skipped !== true);
  return {
    ...run,
    stages: run.stages.map((stage, index) => (index === last ? outNow(stage, now) : stage)),
    endedAt: now,
    ending: "done",
  };
}

function outNow(stage: Stage, now: Instant): Stage {
  const { outByClock: _, ...rest } = stage;
  return { ...rest, outAt: now };
}

/** "skip" a bath that has not been poured. Skipping the last one ends the run. */
export function skipStage(run: Run, index: number, now: Instant): Run {
  const skipped = withStage(run, index, { skipped: true });
  if (index !== run.current) return skipped;
  const next = nextStage(run, index);
  if (next === undefined) return finish(skipped, now, "done");
  const opened = run.stages[index]?.pourAt;
  const moved =
    opened === undefined
      ? skipped
      : withStage(skipped, next.index, { pourAt: opened > now ? opened : now });
  return { ...moved, current: next.index, cuedUntil: justAfter(now) };
}

export type Standing =
  /** The plan stands; the first pour waits for "ready" or for its clock time. */
  | { readonly kind: "planned"; readonly stage: Stage; readonly pourAt: Instant | undefined }
  /** The window is open and "in" was not heard. */
  | { readonly kind: "pouring"; readonly stage: Stage; readonly openFor: Seconds }
  | {
      readonly kind: "in";
      readonly stage: Stage;
      readonly gone: Seconds;
      /** Until the film should have left; negative when it is over. */
      readonly left: Seconds;
      readonly untilPourOut: Seconds;
    }
  | { readonly kind: "over" };

/** Where a run stands at an instant, in the words of the bench. */
export function standing(run: Run, now: Instant): Standing {
  const stage = currentStage(run);
  if (stage === undefined) return { kind: "over" };
  if (stage.pourAt === undefined || stage.pourAt > now) {
    return { kind: "planned", stage, pourAt: stage.pourAt };
  }
  if (stage.inAt === undefined) {
    return { kind: "pouring", stage, openFor: secondsBetween(stage.pourAt, now) };
  }
  const clock = stageClock(stage, stage.pourAt, run.window);
  return {
    kind: "in",
    stage,
    gone: secondsBetween(clock.start, now),
    left: secondsBetween(now, clock.end),
    untilPourOut: secondsBetween(now, clock.pourOut),
  };
}

/** Nothing is in the tank yet: an "in" is what it waits for. */
export const awaitsIn = (run: Run, now: Instant): boolean =>
  ["planned", "pouring"].includes(standing(run, now).kind);

/** "in" heard this long after the window closed is a correction, not news. */
export const isLateIn = (run: Run, now: Instant): boolean => {
  const stage = currentStage(run);
  return (
    stage?.plusMinus !== undefined &&
    stage.pourAt !== undefined &&
    now > later(stage.pourAt, run.window * 2)
  );
};
