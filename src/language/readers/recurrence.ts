import { type Day, showTime, type TimeOfDay, zonedAt } from "../../domain/reminders/calendar.ts";
import { nextDay } from "../../domain/reminders/occurrence.ts";
import type { Repeats } from "../../domain/reminders/reminder.ts";
import { showRepeats } from "../../domain/reminders/show-repeats.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readDay, readMonth, readOrdinal, readWeekday } from "./date-words.ts";
import { readNthOf } from "./day-ahead.ts";
import { readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { readPart, readTimeAhead, timesOf, timesOfPart } from "./time-ahead.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

export type RepeatsValue = Repeats | Unsettled<Repeats> | Unreadable;
type Read = readonly Reading<RepeatsValue>[];
type Unit = Repeats["unit"];

/** What a phrase fixes of a rule, before its time and its first day. */
type Pattern = {
  readonly every: number;
  readonly unit: Unit;
  readonly weekdays?: readonly number[];
  readonly monthDay?: number;
  readonly nth?: { readonly nth: number; readonly weekday: number };
  readonly month?: number;
  /** "every morning". */
  readonly part?: "morning" | "afternoon" | "evening" | "night";
};
type Patterns = readonly Reading<Pattern | Unreadable>[];

/** More than this many of any unit is a slip. */
const MOST = 1000;

/**
 * The slot `{repeats}`: "every sunday at 6pm", "every 2 weeks", "each month on the first", "daily
 * at 9", "the first saturday of every month". Its times are the bench's wall clock.
 */
export function readRepeats(words: readonly string[], from: number, listening: Listening): Read {
  if (from >= words.length) return [];
  const today = zonedAt(listening.now, listening.zone).toPlainDate();
  const found: Reading<RepeatsValue>[] = [];
  for (const pattern of readPattern(words, from)) {
    found.push(...finish(words, from, pattern, today, undefined));
  }
  // "at 6pm every sunday"
  for (const { value: clock, next } of readTimeAhead(words, from)) {
    for (const pattern of readPattern(words, next)) {
      found.push(...finish(words, from, pattern, today, clock));
    }
  }
  return byLength(found);
}

type Clock = ReturnType<typeof readTimeAhead>[number]["value"];

function finish(
  words: readonly string[],
  from: number,
  { value: pattern, next }: Reading<Pattern | Unreadable>,
  today: Day,
  before: Clock | undefined,
): Read {
  if (isUnreadable(pattern)) return [{ value: unreadable(words, from, next), next }];
  const part = pattern.part === undefined ? readPart(words, next)[0] : undefined;
  const behind = part?.next ?? next;
  const said = pattern.part ?? part?.value;
  const heard = (end: number): string => words.slice(from, end).join(" ");
  const withTimes = (times: readonly TimeOfDay[], end: number): Reading<RepeatsValue> => ({
    value: choose(pattern, times, today, heard(end)),
    next: end,
  });
  if (before !== undefined) {
    const times = timesOf(before, said);
    return times === undefined ? [] : [withTimes(times.times, behind)];
  }
  const found: Reading<RepeatsValue>[] = [];
  for (const { value: clock, next: end } of readTimeAhead(words, behind)) {
    const late = said === undefined ? readPart(words, end)[0] : undefined;
    const times = timesOf(clock, said ?? late?.value);
    if (times !== undefined) found.push(withTimes(times.times, late?.next ?? end));
  }
  found.push(withTimes(said === undefined ? [] : timesOfPart(said).times, behind));
  if (part !== undefined) found.push(withTimes([], next));
  return found;
}

/** One time or none is a rule; two are asked about. */
function choose(
  pattern: Pattern,
  times: readonly TimeOfDay[],
  today: Day,
  heard: string,
): RepeatsValue {
  const rules = (times.length === 0 ? [undefined] : times).map((time) =>
    ruleOf(
      pattern,
      time === undefined ? undefined : { hour: time.hour, minute: time.minute },
      today,
    ),
  );
  const [first, second] = rules;
  if (first === undefined) return { unreadable: heard };
  if (second === undefined) return first;
  return {
    unsettled: "date",
    heard,
    say: `At ${rules.map(({ time }) => (time === undefined ? "" : showTime(time))).join(" or at ")}?`,
    choices: rules.map((value) => ({ word: wordOf(value), value })),
  };
}

function wordOf(rule: Repeats): string {
  const { time } = rule;
  if (time === undefined) return showRepeats(rule);
  const hour = time.hour % 12 === 0 ? 12 : time.hour % 12;
  return `${showRepeats(rule)} (${hour} ${time.hour < 12 ? "am" : "pm"})`;
}

function ruleOf(pattern: Pattern, time: TimeOfDay | undefined, today: Day): Repeats {
  const { every, unit, weekdays, nth } = pattern;
  const monthDay =
    pattern.monthDay ??
    (nth === undefined && (unit === "months" || unit === "years") ? today.day : undefined);
  const rule: Repeats = {
    kind: "every",
    every,
    unit,
    from: today.toString(),
    ...(weekdays === undefined ? {} : { weekdays: [...weekdays] }),
    ...(monthDay === undefined ? {} : { monthDay }),
    ...(nth === undefined ? {} : { nth }),
    ...(time === undefined ? {} : { time }),
  };
  return { ...rule, from: firstDay(pattern, rule, today).toString() };
}

/** The day a rule counts from: the first it falls on. */
function firstDay(pattern: Pattern, rule: Repeats, today: Day): Day {
  const { every, unit, weekdays, monthDay, nth, month } = pattern;
  if (every < 1) return today;
  if (month !== undefined) {
    const day = today
      .with({ day: 1, month })
      .with({ day: monthDay ?? 1 }, { overflow: "constrain" });
    return Temporal.PlainDate.compare(day, today) < 0 ? day.add({ years: 1 }) : day;
  }
  // Named days begin with the next of them; "every 2 weeks" begins in two weeks.
  const named = weekdays ?? monthDay ?? nth;
  if (named !== undefined) return nextDay({ ...rule, every: 1 }, today) ?? today;
  if (unit === "days" && every === 1) return today;
  return today.add({ [unit]: every });
}

const readEvery = phrases<true>([[true, "every, each"]]);
const readUnitWord = phrases<{ readonly unit: Unit; readonly by: number }>([
  [{ unit: "days", by: 1 }, "day, days"],
  [{ unit: "weeks", by: 1 }, "week, weeks, wk, wks"],
  [{ unit: "weeks", by: 2 }, "fortnight, fortnights"],
  [{ unit: "months", by: 1 }, "month, months"],
  [{ unit: "months", by: 3 }, "quarter"],
  [{ unit: "years", by: 1 }, "year, years"],
]);
const readAdverb = phrases<{ readonly unit: Unit; readonly by: number }>([
  [{ unit: "days", by: 1 }, "daily"],
  [{ unit: "weeks", by: 1 }, "weekly, once a week"],
  [{ unit: "weeks", by: 2 }, "fortnightly, once a fortnight"],
  [{ unit: "months", by: 1 }, "monthly, once a month"],
  [{ unit: "months", by: 3 }, "quarterly"],
  [{ unit: "years", by: 1 }, "yearly, once a year, annually"],
  [{ unit: "days", by: 1 }, "once a day"],
]);

function readPattern(words: readonly string[], from: number): Patterns {
  const on = words[from] === "on" ? from + 1 : from;
  return [
    ...readEach(words, from),
    ...readAdverb(words, from).flatMap(({ value, next }) =>
      withDays(words, { every: value.by, unit: value.unit }, next),
    ),
    ...readPlural(words, on),
    ...readDayOfEvery(words, on),
  ];
}

/** "every sunday", "every other week", "every 10 days", "every morning", "every 1 march". */
function readEach(words: readonly string[], from: number): Patterns {
  return readEvery(words, from).flatMap(({ next }): Patterns => {
    const other = ["other", "second"].includes(words[next] ?? "");
    const every = other ? 2 : 1;
    const start = other ? next + 1 : next;
    return [
      ...readWeekdays(words, start).map(({ value, next: end }) => ({
        value: { every, unit: "weeks" as const, weekdays: value },
        next: end,
      })),
      ...readPartWord(words, start),
      ...readNthMonth(words, next),
      ...readYearDay(words, start),
      ...readUnitWord(words, start).flatMap(({ value, next: end }) =>
        withDays(words, { every: every * value.by, unit: value.unit }, end),
      ),
      ...readCounted(words, next, from),
    ];
  });
}

const readPartOne = phrases<NonNullable<Pattern["part"]>>([
  ["morning", "morning"],
  ["afternoon", "afternoon"],
  ["evening", "evening"],
  ["night", "night"],
]);

const readPartWord = (words: readonly string[], from: number): Patterns =>
  readPartOne(words, from).map(({ value, next }) => ({
    value: { every: 1, unit: "days", part: value },
    next,
  }));

/** "every 10 days", "every three weeks on friday", "every 0 days" (refused by the command). */
function readCounted(words: readonly string[], from: number, start: number): Patterns {
  return readNumber(words, from).flatMap(
    ({ value: count, next }): Patterns =>
      readUnitWord(words, next).flatMap(({ value, next: end }): Patterns => {
        const bad =
          isUnreadable(count) || !Number.isInteger(count * value.by) || Math.abs(count) > MOST;
        if (bad) return [{ value: unreadable(words, start, end), next: end }];
        return withDays(words, { every: count * value.by, unit: value.unit }, end);
      }),
  );
}

/** "month on the first", "2 weeks on friday", "month on the last sunday", "year on 1 march". */
function withDays(words: readonly string[], pattern: Pattern, next: number): Patterns {
  const plain: Reading<Pattern> = { value: pattern, next };
  const on = words[next] === "on" ? next + 1 : next;
  if (pattern.unit === "weeks") {
    const days = on > next ? readWeekdays(words, on) : [];
    return [
      ...days.map((one) => ({ value: { ...pattern, weekdays: one.value }, next: one.next })),
      plain,
    ];
  }
  if (pattern.unit === "months" && on > next) {
    const nth = readNthOf(words, on);
    if (nth !== undefined)
      return [{ value: { ...pattern, nth: nth.value }, next: nth.next }, plain];
    const day = monthDay(words, on);
    return day === undefined
      ? [plain]
      : [{ value: { ...pattern, monthDay: day.value }, next: day.next }, plain];
  }
  if (pattern.unit === "years" && on > next) {
    return [
      ...readYearDay(words, on).map(({ value, next: end }) =>
        isUnreadable(value)
          ? { value, next: end }
          : { value: { ...value, every: pattern.every }, next: end },
      ),
      plain,
    ];
  }
  return [plain];
}

/** "the first", "the 15th", "the last day". */
function monthDay(words: readonly string[], from: number): Reading<number> | undefined {
  const the = words[from] === "the" ? from + 1 : from;
  if (words[the] === "last" && words[the + 1] === "day") return { value: 31, next: the + 2 };
  const day = readOrdinal(words, the);
  return day === undefined || day.value < 1 || day.value > 31 ? undefined : day;
}

/** "sundays", "on sundays and wednesdays". */
function readPlural(words: readonly string[], from: number): Patterns {
  if (!/^(?:mon|tues|wednes|thurs|fri|satur|sun)days$/.test(words[from] ?? "")) return [];
  return readWeekdays(words, from).map(({ value, next }) => ({
    value: { every: 1, unit: "weeks", weekdays: value },
    next,
  }));
}

const readDays = phrases<readonly number[]>([
  [[1, 2, 3, 4, 5], "weekday, weekdays, working day"],
  [[6], "weekend, weekends"],
]);

/** One weekday, several, or the working days; the weekend stands for its Saturday. */
function readWeekdays(
  words: readonly string[],
  from: number,
): readonly Reading<readonly number[]>[] {
  const named = readDays(words, from);
  if (named.length > 0) return named;
  const first = weekdayAt(words, from);
  if (first === undefined) return [];
  const days = [first.value];
  let { next } = first;
  for (;;) {
    const and = words[next] === "and" ? next + 1 : next;
    const more = weekdayAt(words, and);
    if (more === undefined) return [{ value: days, next }];
    days.push(more.value);
    next = more.next;
  }
}

function weekdayAt(words: readonly string[], from: number): Reading<number> | undefined {
  const known = readWeekday(words, from)[0];
  if (known !== undefined) return known;
  const single = (words[from] ?? "").replace(/s$/, "");
  const day = readWeekday([single], 0)[0];
  return day === undefined ? undefined : { value: day.value, next: from + 1 };
}

/** "on the first of every month", "the first saturday of each month", "the last day of the month" is once. */
function readDayOfEvery(words: readonly string[], from: number): Patterns {
  const nth = readNthOf(words, from);
  const day = nth === undefined ? monthDay(words, from) : undefined;
  const behind = nth?.next ?? day?.next;
  if (behind === undefined || !["of", "in"].includes(words[behind] ?? "")) return [];
  return readEvery(words, behind + 1).flatMap(({ next }): Patterns => {
    if (words[next] !== "month") return [];
    const value: Pattern =
      nth !== undefined
        ? { every: 1, unit: "months", nth: nth.value }
        : { every: 1, unit: "months", monthDay: day?.value ?? 1 };
    return [{ value, next: next + 1 }];
  });
}

/** "every first sunday of the month", "every last friday". */
function readNthMonth(words: readonly string[], from: number): Patterns {
  const nth = readNthOf(words, from);
  if (nth === undefined) return [];
  const of = words[nth.next] === "of" || words[nth.next] === "in" ? nth.next + 1 : nth.next;
  const the = words[of] === "the" || words[of] === "a" || words[of] === "each" ? of + 1 : of;
  if (words[the] !== "month" || of === nth.next) return [];
  return [{ value: { every: 1, unit: "months", nth: nth.value }, next: the + 1 }];
}

/** "1 march", "march 1st". */
function readYearDay(words: readonly string[], from: number): Patterns {
  const the = words[from] === "the" ? from + 1 : from;
  const day = readDay(words, the);
  const of = day !== undefined && words[day.next] === "of" ? day.next + 1 : day?.next;
  const month = of === undefined ? readMonth(words, the)[0] : readMonth(words, of)[0];
  if (month === undefined) return [];
  const found = day ?? readDay(words, words[month.next] === "the" ? month.next + 1 : month.next);
  if (found === undefined) return [];
  const next = Math.max(found.next, month.next);
  const most = Temporal.PlainDate.from({ year: 2024, month: month.value, day: 1 }).daysInMonth;
  if (found.value < 1 || found.value > most) {
    return [{ value: unreadable(words, from, next), next }];
  }
  return [{ value: { every: 1, unit: "years", monthDay: found.value, month: month.value }, next }];
}
