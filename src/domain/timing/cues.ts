import { oncePer } from "../once-per.ts";
import { isWater } from "../process/sheet.ts";
import { currentStage, type Run, type Stage } from "../session/run.ts";
import { type Instant, instant, later, type Seconds } from "../units/quantity.ts";
import { beats, FETCH_LEAD, firstAgitation, stageClock } from "./stage-clock.ts";

/** An instant at which hands must act. `for` is how long, in s, where that matters. */
export type Cue = {
  readonly at: Instant;
  readonly stage: number;
  readonly kind: CueKind;
  readonly for?: Seconds | undefined;
};

export type CueKind =
  | "pour"
  | "agitate"
  | "rest"
  | "vent"
  | "beat"
  | "fetch"
  | "pour-out"
  /** The pour window is over and "in" was not heard. */
  | "ask-in";

/** `hold` silences these; pours are never silenced. */
export const isChatter = (kind: CueKind): boolean =>
  kind === "beat" || kind === "rest" || kind === "agitate" || kind === "fetch";

/** The next stage that is not skipped and needs something fetched. */
export function nextStage(run: Run, after: number): { stage: Stage; index: number } | undefined {
  for (let index = after + 1; index < run.stages.length; index += 1) {
    const stage = run.stages[index];
    if (stage !== undefined && stage.skipped !== true) return { stage, index };
  }
  return undefined;
}

/** Every cue of the stage the run stands in, in order of time. */
export function stageCues(run: Run): readonly Cue[] {
  const stage = currentStage(run);
  if (stage === undefined) return [];
  return cuesOf(stage, run.current, run.window, nextStage(run, run.current)?.stage);
}

const cuesOf = oncePer(cuesOfStage);

function cuesOfStage(
  stage: Stage,
  index: number,
  window: Seconds,
  next: Stage | undefined,
): readonly Cue[] {
  if (stage.pourAt === undefined) return [];
  const clock = stageClock(stage, stage.pourAt, window);
  const cues: Cue[] = [];
  const add = (kind: CueKind, at: Instant, lasting?: Seconds): void => {
    cues.push(
      lasting === undefined ? { at, stage: index, kind } : { at, stage: index, kind, for: lasting },
    );
  };

  add("pour", clock.pour);
  const asked = later(clock.pour, window);
  if (stage.inAt === undefined && asked < clock.end) add("ask-in", asked);
  const { agitation } = stage;
  const first = firstAgitation(stage);
  if (agitation !== undefined) {
    if (first > 0) {
      add("agitate", clock.start, first);
      const rest = later(clock.start, first);
      if (rest < clock.pourOut) add("rest", rest);
    }
    for (const offset of beats(stage)) {
      if (offset > 0) add("beat", later(clock.start, offset), agitation.each);
    }
  }
  if (stage.vent !== undefined && stage.vent < stage.time - stage.drain) {
    add("vent", later(clock.start, stage.vent));
  }
  const fetchAt = later(clock.end, -FETCH_LEAD);
  const handsFree = later(clock.start, first + 1);
  if (next !== undefined && !isWater(next.kind) && fetchAt >= handsFree) {
    add("fetch", fetchAt);
  }
  add("pour-out", clock.pourOut);
  return cues.sort((a, b) => a.at - b.at || order.indexOf(a.kind) - order.indexOf(b.kind));
}

/** At one instant, what presses most comes first. */
const order: readonly CueKind[] = [
  "pour-out",
  "pour",
  "vent",
  "agitate",
  "rest",
  "beat",
  "fetch",
  "ask-in",
];

/** Cues with `from <= at < to`. Joining two neighbouring spans gives the cues of the whole. */
export const cuesBetween = (run: Run, from: Instant, to: Instant): readonly Cue[] =>
  stageCues(run).filter((cue) => cue.at >= from && cue.at < to);

/**
 * All cues a run gives if nobody says a word from here on: what the plan posts and what a test can
 * check against the stages. `walk` moves the run over the end of its present stage.
 */
export function allCues(run: Run, walk: (run: Run) => Run): readonly Cue[] {
  const cues: Cue[] = [];
  let at = run;
  for (let guard = 0; guard <= run.stages.length; guard += 1) {
    cues.push(...stageCues(at));
    const next = walk(at);
    if (next === at || currentStage(next) === undefined) break;
    at = next;
  }
  return cues;
}

export const justAfter = (at: Instant): Instant => instant(at + 1);
