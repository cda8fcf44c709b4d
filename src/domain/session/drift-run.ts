import { throughout } from "../process/agitation.ts";
import { isColour, isDeveloper } from "../process/sheet.ts";
import type { Result } from "../result.ts";
import { BANDS } from "../temperature/bands.ts";
import {
  askFirst,
  type CompensationRules,
  type Settled,
  settle,
} from "../temperature/compensate.ts";
import type { DriftError, DriftStage } from "../temperature/drift.ts";
import type { ReadingQuestion } from "../temperature/question-reading.ts";
import { stageClock } from "../timing/stage-clock.ts";
import {
  type Instant,
  instant,
  type Seconds,
  seconds,
  wholeMilliseconds,
} from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import { currentStage, type ReadingTaken, type Run, type Stage, withStage } from "./run.ts";

/** A stage as drift sees it; undefined where none is worked out: not poured, no aim, a minimum. */
export function driftStage(
  { stages, rehearsal, endedAt }: Run,
  index: number,
): DriftStage | undefined {
  const stage = stages[index];
  if (stage?.inAt === undefined || stage.temperature === undefined) return undefined;
  if (stage.sense !== "exact" || !isDeveloper(stage.kind) || rehearsal !== undefined) {
    return undefined;
  }
  const { inAt: start, time, timeMeant, temperature: aim, drain, outAt: out = endedAt } = stage;
  return { start, time: timeMeant ?? time, planned: time, aim, drain, out };
}

export const compensationOf = (run: Run, stage: Stage): CompensationRules => ({
  allowed: stage.compensation === true,
  law: stage.timeLaw,
  tolerance: stage.tolerance,
  colour: isColour(run.process),
  base: stage.timeBase,
});

/** The stage film was in at a moment, of two the one it had just come into; or the present one. */
export function stageAt(run: Run, at: Instant): number {
  const found = run.stages.findLastIndex(
    ({ inAt, outAt }) => inAt !== undefined && inAt <= at && (outAt === undefined || at <= outAt),
  );
  return found < 0 ? run.current : found;
}

/** The stage's readings since the pour, as drift takes them. */
const since = (run: Run, index: number, start: Instant): readonly ReadingTaken[] =>
  run.readings.filter(({ stage, at }) => stage === index && at >= start);

/**
 * The question to ask before a reading is logged, where drift is worked out; undefined where there
 * is none, `false` where no drift is worked out at all.
 *
 * @param earlier  the run before the reading was logged
 */
export function oddReading(
  earlier: Run,
  index: number,
  reading: Pick<ReadingTaken, "at" | "temperature">,
  now: Instant,
): ReadingQuestion | undefined | false {
  const stage = earlier.stages[index];
  const drift = driftStage(earlier, index);
  if (stage === undefined || drift === undefined || reading.at < drift.start) return false;
  const before = since(earlier, index, drift.start);
  return askFirst(drift, compensationOf(earlier, stage), before, reading, now);
}

/** What the readings of a bath come to as they stand now: after one was struck, or all read anew. */
export function weighAnew(
  run: Run,
  index: number,
  now: Instant,
): Result<Settled, DriftError> | undefined {
  const stage = run.stages[index];
  const drift = driftStage(run, index);
  if (stage === undefined || drift === undefined) return undefined;
  return settle(drift, compensationOf(run, stage), since(run, index, drift.start), now);
}

/**
 * Was this departure decided about already? It is another one once the bath was back in its band in
 * between, went to the other side, or is clearly further off than it was.
 */
export function isAnswered(run: Run, index: number, { drift, band }: Settled): boolean {
  const stage = run.stages[index];
  const answer = stage?.driftAnswer;
  if (stage?.temperature === undefined || answer === undefined) return false;
  const { off, at } = answer;
  if (off === undefined || at === undefined) return answer.band === band;
  const aim = stage.temperature;
  const width = (stage.tolerance ?? BANDS.note) + 1e-9;
  const after = run.readings
    .filter((reading) => reading.stage === index && reading.at > at)
    .toSorted((a, b) => a.at - b.at)
    .map(({ temperature }) => temperature - aim);
  const back = after.findIndex((one) => Math.abs(one) <= width);
  if (back >= 0 && after.slice(back).some((one) => Math.abs(one) > width)) return false;
  if (after.some((one) => Math.abs(one) > width && Math.sign(one) !== Math.sign(off))) return false;
  return Math.abs(drift.worst) <= Math.abs(off) + BANDS.note + 1e-9;
}

/** Once pouring out has been called, nothing moves it any more. */
export function pouringOut(run: Run, index: number, now: Instant): boolean {
  const stage = run.stages[index];
  if (stage?.pourAt === undefined || index !== run.current || run.endedAt !== undefined) {
    return true;
  }
  return now >= stageClock(stage, stage.pourAt, run.window).pourOut;
}

/** The run with a stage's time moved: the cue moves with it, the reason stands in its record. */
export function moveEnd(run: Run, index: number, to: Seconds, how: string, now: Instant): Run {
  const time = wholeMilliseconds(to);
  const stage = run.stages[index];
  if (stage === undefined) return run;
  const meant = stage.timeMeant ?? stage.time;
  const kept = (stage.corrections ?? []).filter(({ kind }) => kind !== "drift");
  const moved = withStage(run, index, {
    time,
    timeMeant: meant,
    agitation: throughout(stage.agitation, stage.time, time),
    timeBase: stage.timeBase ?? meant,
    corrections: [
      ...kept,
      {
        kind: "drift",
        by: seconds(time - meant),
        how: `${showDuration(meant)} became ${showDuration(time)}: ${how}`,
      },
    ],
  });
  const after = currentStage(moved);
  if (after?.pourAt === undefined || index !== moved.current)
    return noted(moved, now, `drift: ${how}`);
  // A pour-out that has come down to this very moment must still be told; a fetch that was told,
  // and that the longer time would set a moment ago, was not missed.
  const { pourOut } = stageClock(after, after.pourAt, moved.window);
  const cuedUntil =
    pourOut <= now ? Math.min(moved.cuedUntil, pourOut) : Math.max(moved.cuedUntil, now);
  return noted({ ...moved, cuedUntil: instant(cuedUntil) }, now, `drift: ${how}`);
}

export const noted = (run: Run, at: Instant, text: string): Run => ({
  ...run,
  notes: [...run.notes, { at, text }],
});
