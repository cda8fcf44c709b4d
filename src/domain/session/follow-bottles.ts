import type { Bottle } from "../chemistry/bottle.ts";
import { type Promised, workBefore } from "../chemistry/work-before.ts";
import { filmUnits } from "../film/load.ts";
import { ownValue } from "../own-value.ts";
import { throughout } from "../process/agitation.ts";
import { developerTime, takeMiddle } from "../process/developer-time.ts";
import { explainCorrection } from "../temperature/corrections.ts";
import { layOut } from "../timing/stage-clock.ts";
import { type Instant, type Seconds, type Units, wholeMilliseconds } from "../units/quantity.ts";
import { showDuration, showUnits } from "../units/show.ts";
import type { Bench } from "./bench.ts";
import { liveRuns } from "./find-run.ts";
import { isLive, type Run, type Stage } from "./run.ts";

/**
 * A developer's time that is another now, since its bottle has done another amount of film. Where
 * all corrections together would go too far it stays, and `refused` says why.
 */
export type Retimed = {
  readonly tank: string;
  readonly bath: string;
  readonly bottle: string;
  readonly from: Seconds;
  readonly to: Seconds;
  /** Film the bottle has done, or will have, when this tank is poured. */
  readonly done: Units;
  readonly beyondTable: boolean;
  readonly refused?: string | undefined;
};

/** Less than this, s, is no other time. */
const WORTH_SAYING = 0.5;

const waits = (stage: Stage): boolean =>
  stage.inAt === undefined && stage.outAt === undefined && stage.skipped !== true;

/** Nothing real goes into it. */
const isDry = (run: Run): boolean => run.nothingIn === true || run.rehearsal !== undefined;

/** When a stage that waits is poured if nobody speaks; never, while the run waits for "ready". */
function pourOf(run: Run, index: number): number {
  const current = run.stages[run.current];
  if (current !== undefined && current.inAt === undefined && current.pourAt === undefined)
    return Number.POSITIVE_INFINITY;
  return layOut(run, run.plannedAt)[index]?.pour ?? Number.POSITIVE_INFINITY;
}

/**
 * Film of other open runs that goes through a bottle first, as the clocks stand. Of two that wait
 * for a word, or pour at one instant, the one planned first goes first.
 *
 * @param pour   when the tank in question is poured, ms; infinite while it waits for "ready"
 * @param runId  its run; missing while it is only being planned
 */
export function promisedFirst(
  bench: Bench,
  bottle: string,
  pour: number,
  runId?: string,
): readonly Promised[] {
  const open = liveRuns(bench);
  const place = open.findIndex(({ id }) => id === runId);
  return open.flatMap((run, index) => {
    if (run.id === runId || isDry(run) || run.film.length === 0) return [];
    if (run.counted.some((entry) => entry.bottle === bottle)) return [];
    const at = run.stages.findIndex((stage) => stage.bottle === bottle && waits(stage));
    if (at < 0) return [];
    const theirs = pourOf(run, at);
    const first = theirs < pour || (theirs === pour && (place < 0 || index < place));
    return first ? [{ tank: run.tank, units: filmUnits(run.film) }] : [];
  });
}

type Again = {
  readonly stage: Stage;
  readonly beyondTable: boolean;
  readonly refused?: string | undefined;
};

/**
 * The stage with its time worked out again, by all that made it: re-use, push, temperature. What
 * goes beyond the limits by now is left as it is.
 */
function timedAgain(
  stage: Stage,
  bottle: Bottle,
  first: readonly Promised[],
  load: number,
): Again | undefined {
  const { follows } = stage;
  if (follows === undefined) return undefined;
  const { base, reuse, push, batch, warmth, limits } = follows;
  const before = workBefore(bottle, batch, first, load);
  const bath = {
    time: base,
    reuse,
    temperature: warmth?.aim,
    tolerance: warmth?.tolerance,
    timeLaw: warmth?.law,
  };
  const found = developerTime(bath, before, push, warmth?.at, limits);
  if (found === undefined) return undefined;
  if (!found.ok) return { stage, beyondTable: false, refused: explainCorrection(found.error) };
  const worked = warmth?.middle === true ? takeMiddle(found.value) : found.value;
  const { corrections, beyondTable, time: figure } = worked;
  const time = wholeMilliseconds(figure.value);
  const { timeBase: _, corrections: __, ...rest } = stage;
  return {
    stage: {
      ...rest,
      time,
      timeOrigin: figure.origin,
      agitation: throughout(stage.agitation, stage.time, time),
      ...(corrections.length === 0 ? {} : { timeBase: base.value, corrections: [...corrections] }),
    },
    beyondTable,
  };
}

/** Said in the run's record and to its people. */
export const retimedWords = (one: Retimed): string => {
  const { bath, bottle, from, to, done, beyondTable, refused } = one;
  if (refused !== undefined)
    return `${bath} stays ${showDuration(from)}, and ${bottle} has done ${showUnits(done)} by then. ${refused}`;
  return `${bath} ${showDuration(to)} instead of ${showDuration(from)}: ${bottle} has done ${showUnits(done)} by then${beyondTable ? ", and the re-use table ends before that" : ""}.`;
};

/**
 * Every developer that is not in yet gets the time for what its bottle will have done when it is
 * poured. A stage that is in, or whose time the user gave, is never changed.
 */
export function followBottles(
  bench: Bench,
  now: Instant,
): { readonly bench: Bench; readonly retimed: readonly Retimed[] } {
  const retimed: Retimed[] = [];
  let after = bench;
  for (const open of liveRuns(bench)) {
    if (isDry(open)) continue;
    let run = open;
    for (const [index, stage] of open.stages.entries()) {
      const bottle = stage.bottle === undefined ? undefined : ownValue(bench.bottles, stage.bottle);
      if (bottle === undefined || stage.follows === undefined || !waits(stage)) continue;
      if (run.counted.some((entry) => entry.bottle === bottle.id)) continue;
      const first = promisedFirst(bench, bottle.id, pourOf(open, index), open.id);
      const again = timedAgain(stage, bottle, first, filmUnits(open.film));
      if (again === undefined || (again.refused === undefined && sameTime(again.stage, stage)))
        continue;
      const done = first.reduce((sum, { units }) => sum + units, bottle.used as number) as Units;
      const one = changeOf(run, stage, again, bottle, done);
      if (again.refused !== undefined && (one === undefined || isNoted(run, one))) continue;
      run = withNote({ ...run, stages: run.stages.with(index, again.stage) }, one, now);
      if (one !== undefined) retimed.push(one);
    }
    if (run !== open) after = { ...after, runs: { ...after.runs, [run.id]: run } };
  }
  return { bench: after, retimed };
}

/**
 * A developer that has just gone in keeps the time for what its bottle has done at that moment:
 * from here on it follows nothing.
 */
export function settleTimes(bench: Bench, runId: string): Bench {
  const run = ownValue(bench.runs, runId);
  if (run === undefined || isDry(run)) return bench;
  let settled = run;
  for (const [index, stage] of run.stages.entries()) {
    const { follows, inAt } = stage;
    if (follows === undefined || inAt === undefined) continue;
    const bottle = stage.bottle === undefined ? undefined : ownValue(bench.bottles, stage.bottle);
    const open = isLive(run) && stage.outAt === undefined;
    const counted = run.counted.some((entry) => entry.bottle === stage.bottle);
    // What the bath's drift has changed is measured against the time it was poured for.
    const drifted = stage.timeMeant !== undefined;
    const again =
      bottle === undefined || !open || counted || drifted
        ? undefined
        : timedAgain(stage, bottle, [], filmUnits(run.film));
    const { follows: _, ...kept } = again?.stage ?? stage;
    const one =
      again === undefined || bottle === undefined
        ? undefined
        : changeOf(settled, stage, again, bottle, bottle.used);
    const fresh = one === undefined || isNoted(settled, one) ? undefined : one;
    settled = withNote({ ...settled, stages: settled.stages.with(index, kept) }, fresh, inAt);
  }
  return settled === run ? bench : { ...bench, runs: { ...bench.runs, [runId]: settled } };
}

/** How the time of the stage a run stands in changed by being poured; undefined when it did not. */
export function settledChange(before: Run, after: Run): string | undefined {
  const was = before.stages[after.current];
  const is = after.stages[after.current];
  if (was === undefined || is === undefined || Math.abs(is.time - was.time) < WORTH_SAYING)
    return undefined;
  return after.notes.at(-1)?.text;
}

const howOf = (stage: Stage): string => (stage.corrections ?? []).map(({ how }) => how).join();

const sameTime = (a: Stage, b: Stage): boolean =>
  Math.abs(a.time - b.time) < 1e-9 && howOf(a) === howOf(b);

function changeOf(
  { tank }: Run,
  was: Stage,
  { stage, beyondTable, refused }: Again,
  bottle: Bottle,
  done: Units,
): Retimed | undefined {
  if (refused === undefined && Math.abs(stage.time - was.time) < WORTH_SAYING) return undefined;
  const { time: to, bath } = stage;
  return { tank, bath, bottle: bottle.name, from: was.time, to, done, beyondTable, refused };
}

/** It stands in the record already, and nothing has changed since. */
const isNoted = (run: Run, one: Retimed): boolean =>
  run.notes.some(({ text }) => text === retimedWords(one));

const withNote = (run: Run, one: Retimed | undefined, at: Instant): Run =>
  one === undefined ? run : { ...run, notes: [...run.notes, { at, text: retimedWords(one) }] };
