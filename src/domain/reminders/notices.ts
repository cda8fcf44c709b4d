import { oncePer } from "../once-per.ts";
import { lookTimeOf } from "../record/plan-looks.ts";
import { LOOK_FORGOTTEN, wantsLook } from "../record/wants-look.ts";
import type { Bench } from "../session/bench.ts";
import type { Run } from "../session/run.ts";
import { recheckDue } from "../temperature/thermometer.ts";
import type { Instant } from "../units/quantity.ts";
import { type Day, dayAt, dayNumber, dayOfNumber, isoDayNumber, showDay } from "./calendar.ts";
import type { DailyBottle, DailyRoll, Looks } from "./looks.ts";

/** One line of the daily message that the bench says by itself. */
export type Notice = {
  readonly key: string;
  readonly kind: "limit" | "units" | "stock" | "thermometer" | "roll" | "look";
  /** Made only when it is said: most are planned for a day to come. */
  readonly text: () => string;
  /** The first day it may be said on, as a day number. */
  readonly from: number;
  /** Keys that are settled with it: a bottle at 90 % need not be told about 75 % any more. */
  readonly settles: readonly string[];
};

/** A thermometer is compared with a known one this often, months (common practice, no source). */
const THERMOMETER_MONTHS = 6;
/** One that was read and never checked is spoken of this often, months (common practice, no source). */
const UNCHECKED_MONTHS = 1;
/** Film done, as a share of the capacity, from which a bottle is running low (common practice). */
const LOW_UNITS = 0.75;

/**
 * Everything the bench would say by itself, today or on a day to come, as things stand today.
 * `today` is a day; a notice with `from` at or before it can be said now.
 */
export function noticesOf(bench: Bench, today: Day, looks: Looks): readonly Notice[] {
  if (!bench.daily.on) return [];
  const now = dayNumber(today);
  const notices: Notice[] = [];
  for (const bottle of looks.bottles(bench, today.toString())) {
    notices.push(...ofBottle(bottle, now));
  }
  notices.push(...thermometerNotices(bench, today), ...namedThermometers(bench));
  notices.push(...lookNotices(bench, now));
  for (const notice of ofRolls(looks.rolls(bench), bench.daily.rollDays)) notices.push(notice);
  return notices;
}

const ofBottle = oncePer(bottleNotices);
const ofRoll = oncePer(rollNotices);
const ofRolls = oncePer((rolls: readonly DailyRoll[], days: number) =>
  rolls.flatMap((roll) => ofRoll(roll, days)),
);

type Step = "75" | "90" | "weekend" | "day";

function bottleNotices(bottle: DailyBottle, today: number): readonly Notice[] {
  const { id, name, bath, dueOn, unitsShare, unitsLeft, low } = bottle;
  const notices: Notice[] = [];
  const key = (what: string): string => `${id}:${what}`;
  if (dueOn !== undefined) {
    const due = isoDayNumber(dueOn);
    const passed: string[] = [];
    for (const [step, from] of limitDays(bottle, due, today)) {
      const text = (): string => limitText(step, bottle, due, today);
      notices.push({ key: key(step), kind: "limit", text, from, settles: [...passed] });
      passed.push(key(step));
    }
  }
  if (unitsShare !== undefined && unitsShare >= LOW_UNITS) {
    const text = (): string => `${name} (${bath}): ${showLeft(unitsLeft)} by film count.`;
    notices.push({ key: key("units"), kind: "units", text, from: today, settles: [] });
  }
  if (low !== undefined) {
    const text = (): string => `${name} (${bath}) runs low: ${low}.`;
    notices.push({ key: key("low"), kind: "stock", text, from: today, settles: [] });
  }
  return notices;
}

/** Rounded down: a tenth of a unit that is not there is of no use to anybody. */
function showLeft(units = 0): string {
  const left = Math.max(0, Math.floor(units * 10) / 10);
  return left === 0 ? "nothing left" : `${left} unit${left === 1 ? "" : "s"} left`;
}

/** On which days the steps before a limit come, the earliest first. From today on age goes on evenly. */
function limitDays(
  { ageShare }: DailyBottle,
  due: number,
  today: number,
): readonly (readonly [Step, number])[] {
  const dayOfShare = (share: number): number => {
    if (ageShare >= share) return Math.min(due, today);
    const rest = Math.ceil(((share - ageShare) / (1 - ageShare)) * (due - today) - 1e-9);
    return Math.min(due, today + Math.max(1, rest));
  };
  // Day number 2 was a Saturday. The last whole weekend ends on a Sunday, the limit at the latest.
  const saturday = due - 1 - ((((due - 3) % 7) + 7) % 7);
  const days: readonly (readonly [Step, number])[] = [
    ["75", dayOfShare(0.75)],
    ["90", dayOfShare(0.9)],
    ["weekend", saturday],
    ["day", due],
  ];
  // A weekend that is over is not worth a word; on its Sunday it still is.
  return days
    .filter(([step, day]) => step !== "weekend" || day >= today - 1)
    .sort(([, one], [, other]) => one - other);
}

function limitText(step: Step, { name, bath }: DailyBottle, due: number, today: number): string {
  const limit = showDay(dayOfNumber(due));
  switch (step) {
    case "75":
      return `${name} (${bath}) has used three quarters of its time: good until ${limit}.`;
    case "90":
      return `${name} (${bath}) is near its limit: good until ${limit}.`;
    case "weekend":
      return `${name} (${bath}): the last weekend inside its limit, ${limit}.`;
    case "day":
      return due < today
        ? `${name} (${bath}) is past its limit: it was good until ${limit}.`
        : `${name} (${bath}) is good until today, ${limit}.`;
  }
}

function thermometerNotices(bench: Bench, today: Day): readonly Notice[] {
  const { thermometerOn } = bench.daily;
  const unchecked = uncheckedNotices(bench, today);
  if (thermometerOn === undefined) return unchecked;
  const checked = Temporal.PlainDate.from(thermometerOn);
  const from = dayNumber(checked.add({ months: THERMOMETER_MONTHS }));
  const text = (): string => `Check the thermometer again: last checked ${showDay(checked)}.`;
  const again: Notice = {
    key: `thermometer:${thermometerOn}`,
    kind: "thermometer",
    text,
    from,
    settles: [],
  };
  return [again, ...unchecked];
}

/** Those with a name are due by their own newest check. */
const namedThermometers = ({ thermometers, zone }: Bench): readonly Notice[] =>
  Object.entries(thermometers).flatMap(([id, thermometer]) => {
    const due = recheckDue(thermometer);
    if (due === undefined) return [];
    const text = (): string =>
      `Check the ${thermometer.name} thermometer against the reference again.`;
    const from = dayNumber(dayAt(due, zone));
    return [{ key: `thermometer:${id}:${due}`, kind: "thermometer", text, from, settles: [] }];
  });

/**
 * Temperatures were read on a thermometer nobody ever checked: said after the first, then every
 * month, for each by its name. The one that is due and the next stand side by side, so that the
 * message can be planned.
 */
function uncheckedNotices(bench: Bench, today: Day): readonly Notice[] {
  return [...firstReadings(bench)]
    .filter(([name]) => neverChecked(bench, name))
    .flatMap(([name, first]) => {
      const since = dayAt(first, bench.zone);
      const passed = since.until(today, { largestUnit: "months" }).months;
      const at = Math.max(0, Math.floor(passed / UNCHECKED_MONTHS));
      const which = name === "" ? "" : `${name} `;
      const text = (): string =>
        `Check the ${which}thermometer against one you trust: temperatures were read on it, and no check is noted.`;
      return [at, at + 1].map((nth) => ({
        key: `thermometer:${name === "" ? "" : `${name}:`}unchecked:${nth}`,
        kind: "thermometer" as const,
        text,
        from: dayNumber(nth === 0 ? since : since.add({ months: nth * UNCHECKED_MONTHS })),
        settles: [],
      }));
    });
}

/**
 * Of a thermometer with a name its own checks speak, whatever is known of others; one without is
 * taken for unchecked while no check of any is noted.
 */
function neverChecked({ thermometers, daily }: Bench, name: string): boolean {
  const named = Object.hasOwn(thermometers, name) ? thermometers[name] : undefined;
  if (named !== undefined) return named.isReference !== true && named.checks.length === 0;
  if (name !== "") return true;
  return (
    daily.thermometerOn === undefined &&
    Object.values(thermometers).every(({ checks }) => checks.length === 0)
  );
}

/** When each was first read for a run, by name, those in files of their own included; "" is unnamed. */
function firstReadings(bench: Bench): ReadonlyMap<string, Instant> {
  const first = new Map<string, Instant>();
  const seen = (name: string, at: Instant): void => {
    if (at < (first.get(name) ?? Number.POSITIVE_INFINITY)) first.set(name, at);
  };
  for (const { touched, plannedAt } of bench.pastRuns) {
    for (const name of touched?.thermometers ?? []) seen(name, plannedAt);
  }
  for (const id in bench.runs) {
    for (const { thermometer = "", at } of bench.runs[id]?.readings ?? []) seen(thermometer, at);
  }
  return first;
}

function rollNotices({ id, name, since }: DailyRoll, days: number): readonly Notice[] {
  if (since === undefined) return [];
  const from = isoDayNumber(since) + days + 1;
  const text = (): string => `${name} has waited since ${showDay(Temporal.PlainDate.from(since))}.`;
  return [{ key: `${id}:waits`, kind: "roll", text, from, settles: [] }];
}

/** Film of a run that is over wants looking at, once, a chosen number of days later. */
function lookNotices(bench: Bench, today: number): readonly Notice[] {
  const time = lookTimeOf(bench);
  if (time.kind !== "daily") return [];
  return [
    ...bench.pastRuns
      .filter(mayBeAsked(today, time.days))
      .flatMap((run) => ofFile(run, time.days, bench.zone)),
    ...ofRuns(bench.runs, time.days, bench.zone),
  ].filter(({ from }) => today <= from + LOOK_FORGOTTEN);
}

const ofRuns = oncePer((runs: Bench["runs"], days: number, zone: string): readonly Notice[] =>
  Object.values(runs).flatMap((run) => ofRun(run, days, zone)),
);

const ofRun = oncePer((run: Run, days: number, zone: string): readonly Notice[] =>
  wantsLook(run) ? [lookNotice(run, run.endedAt, days, zone)] : [],
);

/** A long evening has more runs than stay at hand. */
const ofFile = oncePer((run: PastRun, days: number, zone: string): readonly Notice[] =>
  run.unseen === undefined ? [] : [lookNotice(run, run.unseen, days, zone)],
);

type PastRun = Bench["pastRuns"][number];

/** Thousands of old runs are passed over without a look at the calendar; two days leave room for zones. */
const mayBeAsked =
  (today: number, days: number) =>
  ({ unseen }: PastRun): boolean =>
    unseen !== undefined && unseen / 86_400_000 + days + LOOK_FORGOTTEN + 2 > today;

function lookNotice(
  { id, tank }: Pick<Run, "id" | "tank">,
  endedAt: Instant,
  days: number,
  zone: string,
): Notice {
  const ended = dayAt(endedAt, zone);
  const text = (): string => `${tank} of ${showDay(ended)} wants a first look: say first look.`;
  return { key: `${id}:look`, kind: "look", text, from: dayNumber(ended) + days, settles: [] };
}
