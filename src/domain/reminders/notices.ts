import type { Bench } from "../session/bench.ts";
import { recheckDue } from "../temperature/thermometer.ts";
import { type Day, dayAt, dayNumber, dayOfNumber, isoDayNumber, showDay } from "./calendar.ts";
import type { DailyBottle, DailyRoll, Looks } from "./looks.ts";

/** One line of the daily message that the bench says by itself. */
export type Notice = {
  readonly key: string;
  readonly kind: "limit" | "units" | "stock" | "thermometer" | "roll";
  /** Made only when it is said: most are planned for a day to come. */
  readonly text: () => string;
  /** The first day it may be said on, as a day number. */
  readonly from: number;
  /** Keys that are settled with it: a bottle at 90 % need not be told about 75 % any more. */
  readonly settles: readonly string[];
};

/** A thermometer is compared with a known one this often, months (common practice, no source). */
const THERMOMETER_MONTHS = 6;
/** Film done, as a share of the capacity, from which a bottle is running low (common practice). */
const LOW_UNITS = 0.75;

/**
 * Everything the bench would say by itself, today or on a day to come, as things stand today.
 * `today` is a day; a notice with `from` at or before it can be said now.
 */
export function noticesOf(bench: Bench, today: Day, looks: Looks): readonly Notice[] {
  if (!bench.daily.on) return [];
  const now = dayNumber(today);
  return [
    ...looks.bottles(bench, today.toString()).flatMap((bottle) => bottleNotices(bottle, now)),
    ...thermometerNotices(bench),
    ...namedThermometers(bench),
    ...looks.rolls(bench).flatMap((roll) => rollNotices(roll, bench.daily.rollDays)),
  ];
}

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

function thermometerNotices({ daily: { thermometerOn } }: Bench): readonly Notice[] {
  if (thermometerOn === undefined) return [];
  const checked = Temporal.PlainDate.from(thermometerOn);
  const from = dayNumber(checked.add({ months: THERMOMETER_MONTHS }));
  const text = (): string => `Check the thermometer again: last checked ${showDay(checked)}.`;
  return [{ key: `thermometer:${thermometerOn}`, kind: "thermometer", text, from, settles: [] }];
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

function rollNotices({ id, name, since }: DailyRoll, days: number): readonly Notice[] {
  if (since === undefined) return [];
  const from = isoDayNumber(since) + days + 1;
  const text = (): string => `${name} has waited since ${showDay(Temporal.PlainDate.from(since))}.`;
  return [{ key: `${id}:waits`, kind: "roll", text, from, settles: [] }];
}
