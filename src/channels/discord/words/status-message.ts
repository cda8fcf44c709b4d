import { bathWithBottle, calledTank } from "../../../commands/run-lines.ts";
import { sayCue } from "../../../conversation/announce.ts";
import { ownValue } from "../../../domain/own-value.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { standing } from "../../../domain/session/hear.ts";
import { rehearsalMark } from "../../../domain/session/rehearsal.ts";
import { isLive, type Run } from "../../../domain/session/run.ts";
import { isChatter, nextStage, stageCues } from "../../../domain/timing/cues.ts";
import { stageClock } from "../../../domain/timing/stage-clock.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { plain } from "../../../domain/units/show.ts";
import { runButtons } from "./buttons.ts";
import { cleanOutgoing } from "./clean-outgoing.ts";
import { type MessagePayload, MOST_CHARACTERS, payload } from "./message-payload.ts";
import type { RunContext } from "./plan-message.ts";
import { clockMark, leftMark } from "./time-marks.ts";

/**
 * Where a run stands, for the one message of it that is edited: which bath, when it ends, the next
 * cue, what comes after, what was only assumed. Every time in it is absolute, so that it stays true
 * between two edits. It makes no sound; cues do.
 */
export function statusMessage(
  run: Run,
  now: Instant,
  { bench, benchKey }: RunContext,
): MessagePayload {
  const title = `**${cleanOutgoing(`${calledTank(run)}: ${run.title}`)}**`;
  const lines = isLive(run)
    ? [
        ...standingLines(bench, run, now),
        ...(standing(run, now).kind === "planned" ? [] : cueLine(bench, run, now)),
        ...afterLine(bench, run),
        ...noteLines(run),
      ]
    : overLines(run);
  const text = [title, ...lines].join("\n");
  return payload(text.slice(0, MOST_CHARACTERS), {
    buttons: runButtons(bench, benchKey, now, [run]),
    silent: true,
  });
}

function standingLines(bench: Bench, run: Run, now: Instant): readonly string[] {
  const at = standing(run, now);
  if (at.kind === "over") return [];
  const bath = cleanOutgoing(bathWithBottle(bench, at.stage));
  if (at.kind === "planned") {
    return at.pourAt === undefined
      ? [`${bath} waits for "ready". No clock is running.`]
      : [`${clockMark(at.pourAt)} pour ${bath}, ${leftMark(at.pourAt)}`];
  }
  const { stage } = at;
  const pourAt = stage.pourAt ?? now;
  if (at.kind === "pouring") {
    const bottle = ownValue(bench.bottles, stage.bottle ?? "");
    const from = bottle === undefined ? "" : ` from ${bottle.name}, the ${bottle.mark}`;
    const words = cleanOutgoing(`${stage.bath} is being poured${from}`);
    return [`${words}, since ${clockMark(pourAt)}; say in when it is full.`];
  }
  const clock = stageClock(stage, pourAt, run.window);
  return [
    `${bath}, in since ${clockMark(clock.start)}`,
    `pour out ${clockMark(clock.pourOut)}; over ${clockMark(clock.end)}, ${leftMark(clock.end)}`,
  ];
}

function cueLine(bench: Bench, run: Run, now: Instant): readonly string[] {
  const from = Math.max(run.cuedUntil, now);
  const cue = stageCues(run).find(({ at, kind }) => at >= from && !(run.quiet && isChatter(kind)));
  const words = cue === undefined ? undefined : sayCue(bench, run, cue);
  if (cue === undefined || words === undefined) return [];
  return [`next: ${clockMark(cue.at)} ${cleanOutgoing(words.say)}`];
}

function afterLine(bench: Bench, run: Run): readonly string[] {
  const after = nextStage(run, run.current);
  return [
    after === undefined
      ? "That is the last bath."
      : `after it: ${cleanOutgoing(bathWithBottle(bench, after.stage))}`,
  ];
}

function noteLines(run: Run): readonly string[] {
  const stage = run.stages[run.current];
  const before = run.stages.slice(0, run.current).findLast(({ skipped }) => skipped !== true);
  const mark = rehearsalMark(run);
  return [
    ...(stage?.plusMinus === undefined
      ? []
      : [`no "in" heard: counted from the middle of the pour, ±${plain(stage.plusMinus, 0)} s`]),
    ...(before?.outByClock === true
      ? [`no "out" heard: ${cleanOutgoing(before.bath)} ended by the clock`]
      : []),
    ...(run.quiet ? ["on hold: beats are silent, no clock stops"] : []),
    ...(mark === undefined ? [] : [cleanOutgoing(mark)]),
  ].map((line) => `-# ${line}`);
}

function overLines(run: Run): readonly string[] {
  const at = run.endedAt === undefined ? "" : ` ${clockMark(run.endedAt)}`;
  const why = run.stoppedBecause === undefined ? "" : `: ${cleanOutgoing(run.stoppedBecause)}`;
  const how = { done: "done", stopped: "stopped", "by the clock": "over by the clock" };
  return [`${how[run.ending ?? "done"]}${at}${why}. No clock is running.`];
}
