import { coldRules } from "../data/cold-rules.ts";
import type { Bench } from "../domain/session/bench.ts";
import { coldMinimum } from "../domain/session/cold-run.ts";
import { moveEnd, pouringOut } from "../domain/session/drift-run.ts";
import { currentStage, type Run } from "../domain/session/run.ts";
import { coldRuleFor, explainCold } from "../domain/temperature/cold-time.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { stageClock } from "../domain/timing/stage-clock.ts";
import { type Instant, seconds } from "../domain/units/quantity.ts";
import { sayDuration, showDuration } from "../domain/units/show.ts";
import { answer } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";
import type { DriftParts } from "./drift-reply.ts";
import { withRun } from "./tanks.ts";

/** Times closer than this are one, s. */
const SAME = 0.5;

/**
 * What the readings of a bath without a developer's drift lead to: a cold fixer or wash stays in
 * longer by its rule, and as long as planned again when the reading was a slip.
 *
 * @param run  with its readings as they are to stand
 */
export function coldReply(
  bench: Bench,
  run: Run,
  index: number,
  parts: DriftParts,
  now: Instant,
): Outcome {
  const stage = run.stages[index];
  const rule = stage === undefined ? undefined : coldRuleFor(coldRules, stage.kind);
  const found = rule === undefined ? undefined : coldMinimum(run, index, rule);
  if (stage === undefined || found === undefined) return withRun(bench, run, answer(parts));
  if (!found.ok) {
    return withRun(
      bench,
      run,
      answer({ ...parts, lines: [...parts.lines, explainCold(found.error)] }),
    );
  }
  const { time, how } = found.value;
  const change = time - stage.time;
  if (Math.abs(change) < SAME) return withRun(bench, run, answer(parts));
  const isLate =
    stage.outAt !== undefined ||
    index < run.current ||
    (index === run.current && stage.pourAt !== undefined && pouringOut(run, index, now));
  if (isLate) {
    const needed = `At that temperature it needs ${showDuration(time)}, and ${showDuration(stage.time)} were planned: ${how}.`;
    return withRun(bench, run, answer({ ...parts, lines: [...parts.lines, needed] }));
  }
  const moved = moveEnd(run, index, time, how, now);
  const way = change > 0 ? "longer" : "shorter";
  const by = seconds(Math.abs(change));
  return withRun(
    bench,
    moved,
    answer({
      ...parts,
      title: `${parts.title.replace(/\.$/, "")}: ${showDuration(by)} ${way}, ${showDuration(time)} in all.`,
      say: `${run.tank}: ${stage.bath} ${sayDuration(by)} ${way}.`,
      lines: [...parts.lines, ...whenOver(bench, moved, index), how],
      figures: {
        ...parts.figures,
        time_s: { value: time, origin: { kind: "computed", source: how } },
        change_s: { value: change, origin: { kind: "computed", source: how } },
      },
      facts: { ...parts.facts, drift: "replan" },
      working: [...(parts.working ?? []), how],
    }),
  );
}

function whenOver(bench: Bench, run: Run, index: number): readonly string[] {
  const stage = currentStage(run);
  if (index !== run.current || stage?.pourAt === undefined || stage.inAt === undefined) return [];
  const { pourOut, end } = stageClock(stage, stage.pourAt, run.window);
  return [`Pour out at ${clockTime(pourOut, bench.zone)}, over at ${clockTime(end, bench.zone)}.`];
}
