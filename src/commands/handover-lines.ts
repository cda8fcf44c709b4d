import { contentsOf } from "../domain/chemistry/bottle.ts";
import { ownValue } from "../domain/own-value.ts";
import { type Bench, liveBottles } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { type Thing, takenThings } from "../domain/session/in-use.ts";
import type { Run } from "../domain/session/run.ts";
import { recheckDue } from "../domain/temperature/thermometer.ts";
import { clockMinute, clockTime, dateOf, showDate } from "../domain/timing/clock-text.ts";
import { layOut } from "../domain/timing/stage-clock.ts";
import { type Instant, later } from "../domain/units/quantity.ts";
import { showVolume } from "../domain/units/show.ts";
import { looksNow } from "./bottle-looks.ts";
import { unconfirmed } from "./read-back.ts";
import { bathWithBottle, standingLine } from "./run-lines.ts";

/** What the next person at the bench has to know, in four lists. */
export type Standing = {
  readonly wet: readonly string[];
  readonly open: readonly string[];
  readonly next: readonly string[];
  readonly doubtful: readonly string[];
};

/** Reminders this far ahead belong to the next shift, s (own choice, no source). */
const SHIFT = 12 * 3600;

export const standingOf = (bench: Bench, now: Instant): Standing => ({
  wet: liveRuns(bench).map((run) => standingLine(bench, run, now)),
  open: openOf(bench),
  next: nextOf(bench, now),
  doubtful: doubtfulOf(bench, now),
});

/** Bottles whose solution is out of them, in a tank or a jug, and what is being mixed. */
function openOf(bench: Bench): readonly string[] {
  const inTank = liveRuns(bench).flatMap(({ tank, stages, current }) => {
    const stage = stages[current];
    const name = ownValue(bench.bottles, stage?.bottle ?? "")?.name;
    return name === undefined || stage?.inAt === undefined ? [] : [{ name, tank }];
  });
  const bottles = liveBottles(bench).flatMap((bottle) => {
    const { name, bath, out } = bottle;
    const tank = inTank.find((one) => one.name === name)?.tank;
    if (out !== undefined && out > 0) {
      const where = tank === undefined ? "out of it" : `of it in ${tank}`;
      return [
        `${name} (${bath}): ${showVolume(out)} ${where}, ${showVolume(contentsOf(bottle))} in it`,
      ];
    }
    return tank === undefined ? [] : [`${name} (${bath}): its bath is in ${tank}`];
  });
  const { mixing } = bench;
  const step = mixing?.steps[mixing.done];
  return mixing === undefined
    ? bottles
    : [
        ...bottles,
        `${mixing.bath} is being mixed in ${mixing.vessel}: ${step === undefined ? "all is in" : `next ${step.name}`}`,
      ];
}

function nextOf(bench: Bench, now: Instant): readonly string[] {
  const runs = liveRuns(bench).flatMap((run) => {
    const next = run.stages[afterCurrent(run)];
    if (next === undefined) return [`${run.tank}: hang the film when this bath is over`];
    const at = layOut(run, now)[afterCurrent(run)]?.pour;
    const when = at === undefined ? "" : ` at ${clockTime(at, bench.zone)}`;
    return [`${run.tank}: pour ${bathWithBottle(bench, next)}${when}`];
  });
  const today = dateOf(now, bench.zone);
  const reminders = Object.values(bench.reminders).flatMap(({ text, due, snoozed, doneOn }) => {
    const next = snoozed ?? due;
    if (next === undefined || doneOn !== undefined) return [];
    if ("day" in next) return next.day === today ? [`today: ${text}`] : [];
    return next.at > later(now, SHIFT) ? [] : [`${clockMinute(next.at, bench.zone)}: ${text}`];
  });
  return [...runs, ...reminders];
}

/** The bath that is poured next: the present one while it is not in. */
function afterCurrent({ stages, current }: Run): number {
  if (stages[current]?.inAt === undefined) return current;
  const next = stages.findIndex((stage, n) => n > current && stage.skipped !== true);
  return next < 0 ? stages.length : next;
}

function doubtfulOf(bench: Bench, now: Instant): readonly string[] {
  const bottles = looksNow(bench, now).flatMap(({ bottle, state, doubts }) => {
    const count = unconfirmed(bench, bottle.id);
    return [
      ...(state === "suspect" || state === "past limit" || doubts.length > 0
        ? [`${bottle.name} (${bottle.bath}): ${doubts.length > 0 ? doubts.join("; ") : state}`]
        : state === "near limit"
          ? [`${bottle.name} (${bottle.bath}): near its limit`]
          : []),
      ...(count > 0 ? [`${bottle.name}: its count is not confirmed`] : []),
    ];
  });
  const runs = liveRuns(bench).flatMap(({ tank, stages }) =>
    stages.flatMap(({ bath, plusMinus, outByClock }) =>
      plusMinus !== undefined || outByClock === true
        ? [`${tank}: ${bath} was timed by the clock, nobody was heard`]
        : [],
    ),
  );
  const thermometers = Object.values(bench.thermometers).flatMap((thermometer) => {
    const due = recheckDue(thermometer);
    if (thermometer.isReference === true) return [];
    if (thermometer.checks.length === 0)
      return [`the ${thermometer.name} thermometer: never checked`];
    return due !== undefined && due <= now
      ? [`the ${thermometer.name} thermometer: its check is overdue`]
      : [];
  });
  const marked = (bench.suspects ?? []).map(({ kind, name, why }) => `${kind} ${name}: ${why}`);
  return [...bottles, ...runs, ...thermometers, ...marked];
}

/** As lines, each list on one; a list of nothing says so where that matters. */
export function standingLines({ wet, open, next, doubtful }: Standing): readonly string[] {
  return [
    `Wet: ${wet.length === 0 ? "nothing, no clock is running" : wet.join(" ")}`,
    `Open: ${open.length === 0 ? "no bottle stands open" : open.join("; ")}`,
    `Next: ${next.length === 0 ? "nothing is planned" : next.join("; ")}`,
    `Doubtful: ${doubtful.length === 0 ? "nothing I know of" : doubtful.join("; ")}`,
  ];
}

/** Who has what: "Ines: tank North (run of North), the red thermometer (since 19:30)". */
export function takenLines(bench: Bench, now: Instant): readonly string[] {
  const by = new Map<string, string[]>();
  for (const taken of takenThings(bench)) {
    const { by: who, run, since } = taken;
    const why = run === undefined ? `since ${sinceWords(bench, since, now)}` : `run of ${run}`;
    by.set(who, [...(by.get(who) ?? []), `${calledThing(taken)} (${why})`]);
  }
  return [...by].map(([who, things]) => `${who}: ${things.join(", ")}`);
}

export const calledThing = ({ kind, name }: Thing): string =>
  kind === "thermometer" ? `the ${name} thermometer` : `${kind} ${name}`;

const sinceWords = ({ zone }: Bench, at: Instant, now: Instant): string =>
  dateOf(at, zone) === dateOf(now, zone)
    ? clockMinute(at, zone)
    : `${showDate(dateOf(at, zone))}, ${clockMinute(at, zone)}`;
