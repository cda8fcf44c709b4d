import type { Instant } from "../units/quantity.ts";
import {
  type Day,
  dayNumber,
  dayOfNumber,
  instantOf,
  LAST_DAY,
  type Shift,
  zonedAt,
} from "./calendar.ts";
import type { Repeats } from "./reminder.ts";

/** Beyond this many steps a rule falls on no day at all. */
const MOST_STEPS = 5000;

/** Months from any year of four digits that lead beyond all of them. */
const TOO_FAR = 120_000;

/** The first day on or after `earliest` on which a rule falls; none beyond the years of four digits. */
export function nextDay(rule: Repeats, earliest: Day): Day | undefined {
  if (rule.every < 1) return undefined;
  const from = Temporal.PlainDate.from(rule.from);
  const start = Temporal.PlainDate.compare(from, earliest) > 0 ? from : earliest;
  switch (rule.unit) {
    case "days":
      return everyDays(from, start, rule.every);
    case "weeks":
      return rule.weekdays === undefined
        ? everyDays(from, start, rule.every * 7)
        : onWeekdays(rule.weekdays, from, start, rule.every);
    case "months":
      return inMonths(rule, from, start, rule.every);
    case "years":
      return inMonths(rule, from, start, rule.every * 12);
  }
}

function everyDays(from: Day, start: Day, step: number): Day | undefined {
  const first = dayNumber(from);
  const steps = Math.ceil((dayNumber(start) - first) / step);
  const day = first + Math.max(0, steps) * step;
  return day > LAST_DAY ? undefined : dayOfNumber(day);
}

/** Whole weeks are counted from the Monday before the first day. */
function onWeekdays(
  weekdays: readonly number[],
  from: Day,
  start: Day,
  every: number,
): Day | undefined {
  const monday = dayNumber(from) - (from.dayOfWeek - 1);
  const first = dayNumber(start);
  for (let day = first; day < first + 7 * every + 7; day += 1) {
    const week = Math.floor((day - monday) / 7);
    const weekday = ((day - monday) % 7) + 1;
    if (day > LAST_DAY) return undefined;
    if (week % every === 0 && weekdays.includes(weekday)) return dayOfNumber(day);
  }
  return undefined;
}

function inMonths(rule: Repeats, from: Day, start: Day, every: number): Day | undefined {
  const first = from.year * 12 + from.month - 1;
  const wanted = start.year * 12 + start.month - 1;
  let steps = Math.max(0, Math.ceil((wanted - first) / every));
  for (let guard = 0; guard < MOST_STEPS; guard += 1, steps += 1) {
    const month = Temporal.PlainDate.from({ year: from.year, month: from.month, day: 1 }).add({
      months: Math.min(steps * every, TOO_FAR),
    });
    if (month.year > 9999) return undefined;
    const day = dayInMonth(rule, month, from);
    if (day !== undefined && Temporal.PlainDate.compare(day, start) >= 0) return day;
  }
  return undefined;
}

function dayInMonth({ nth, monthDay }: Repeats, month: Day, from: Day): Day | undefined {
  if (nth !== undefined) return nthWeekday(month, nth.nth, nth.weekday);
  return month.with({ day: monthDay ?? from.day }, { overflow: "constrain" });
}

/** The nth such weekday of a month, -1 for the last; undefined where there is no fifth. */
export function nthWeekday(month: Day, nth: number, weekday: number): Day | undefined {
  const first = month.with({ day: 1 });
  const offset = (weekday - first.dayOfWeek + 7) % 7;
  const count = nth === -1 ? Math.floor((month.daysInMonth - 1 - offset) / 7) : nth - 1;
  const day = 1 + offset + 7 * count;
  return day > month.daysInMonth ? undefined : month.with({ day });
}

/** The first instant after `after` at which a rule with a time falls, by the bench's wall clock. */
export function nextInstant(
  rule: Repeats,
  after: Instant,
  zone: string,
): { readonly at: Instant; readonly day: Day; readonly shift?: Shift } | undefined {
  const { time } = rule;
  if (time === undefined) return undefined;
  let earliest = zonedAt(after, zone).toPlainDate();
  for (let guard = 0; guard < 4; guard += 1) {
    const day = nextDay(rule, earliest);
    if (day === undefined) return undefined;
    const found = instantOf(day, time, zone);
    if (found.at > after) return { ...found, day };
    earliest = day.add({ days: 1 });
  }
  return undefined;
}
