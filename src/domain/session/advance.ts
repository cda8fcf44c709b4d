import { oncePer } from "../once-per.ts";
import { type Cue, justAfter, nextStage, stageCues } from "../timing/cues.ts";
import { stageClock } from "../timing/stage-clock.ts";
import { type Instant, later } from "../units/quantity.ts";
import { currentStage, isLive, type Run, withStage } from "./run.ts";

/** What the passing of time does to a run. Everything a run ever does by itself is one of these. */
export type RunEvent =
  | { readonly kind: "cues"; readonly at: Instant; readonly cues: readonly Cue[] }
  | { readonly kind: "assumed-in"; readonly at: Instant; readonly stage: number }
  | { readonly kind: "stage-over"; readonly at: Instant; readonly stage: number }
  | { readonly kind: "run-over"; readonly at: Instant };

/** After the last "in?" the window runs once more before the middle is taken. */
const patience = 2;

/**
 * The next thing the clock does to a run, or undefined when it waits for a word. A cue that lies
 * before `cuedUntil` has been told.
 */
export const nextEvent = oncePer((run: Run): RunEvent | undefined => {
  const stage = currentStage(run);
  if (stage === undefined || stage.pourAt === undefined) return undefined;
  const clock = stageClock(stage, stage.pourAt, run.window);
  const events: RunEvent[] = [];
  const waiting = stageCues(run).filter((cue) => cue.at >= run.cuedUntil);
  const first = waiting[0];
  if (first !== undefined) {
    events.push({ kind: "cues", at: first.at, cues: waiting.filter((cue) => cue.at === first.at) });
  }
  if (stage.inAt === undefined) {
    events.push({
      kind: "assumed-in",
      at: later(clock.pour, run.window * patience),
      stage: run.current,
    });
  }
  const last = nextStage(run, run.current) === undefined;
  events.push(
    last
      ? { kind: "run-over", at: clock.end }
      : { kind: "stage-over", at: clock.end, stage: run.current },
  );
  return events.reduce((soonest, event) => (event.at < soonest.at ? event : soonest));
});

/** The run after one event. */
export function applyEvent(run: Run, event: RunEvent): Run {
  switch (event.kind) {
    case "cues":
      return { ...run, cuedUntil: justAfter(event.at) };
    case "assumed-in": {
      const pour = run.stages[event.stage]?.pourAt;
      if (pour === undefined) return run;
      return withStage(run, event.stage, {
        inAt: later(pour, run.window / 2),
        plusMinus: halfOf(run),
      });
    }
    case "stage-over":
      return leave(run, event.at, true);
    case "run-over":
      return finish(leave(run, event.at, true), event.at, "by the clock");
  }
}

const halfOf = (run: Run) => (run.window / 2) as Run["window"];

/**
 * Film leaves the present bath and the next pour window opens. A bath that ended before its pour
 * was heard or assumed keeps the middle of its window as start.
 */
export function leave(run: Run, at: Instant, byClock: boolean): Run {
  const stage = currentStage(run);
  if (stage === undefined) return run;
  const assumed =
    stage.inAt === undefined && stage.pourAt !== undefined
      ? { inAt: later(stage.pourAt, run.window / 2), plusMinus: halfOf(run) }
      : {};
  const left = {
    ...withStage(run, run.current, {
      ...assumed,
      outAt: at,
      ...(byClock ? { outByClock: true } : {}),
    }),
    cuedUntil: at,
  };
  const next = nextStage(run, run.current);
  if (next === undefined) return left;
  return { ...withStage(left, next.index, { pourAt: at }), current: next.index };
}

export const finish = (run: Run, at: Instant, ending: "done" | "stopped" | "by the clock"): Run =>
  isLive(run) ? { ...run, endedAt: at, ending } : run;

/** Moves a run over the end of its stage, for laying out a whole run without anybody speaking. */
export function overStage(run: Run): Run {
  const stage = currentStage(run);
  if (stage?.pourAt === undefined) return run;
  const clock = stageClock(stage, stage.pourAt, run.window);
  return nextStage(run, run.current) === undefined
    ? finish(leave(run, clock.end, true), clock.end, "by the clock")
    : leave(run, clock.end, true);
}
