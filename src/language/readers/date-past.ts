import { showDay } from "../../domain/reminders/calendar.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { proposeDate } from "./date-proposed.ts";
import {
  dayOf,
  readDay,
  readMonth,
  readOrdinal,
  readWeekday,
  readYear,
  realDate,
  showDate,
} from "./date-words.ts";
import { readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** An ISO date, "2026-11-28", in the zone of the bench. */
type DateValue = string | Unsettled<string> | Unreadable;
type Read = readonly Reading<DateValue>[];
type Day = Temporal.PlainDate;

/**
 * The slot `{pastDate}`: the day of something that has happened. What leaves the year, month or
 * week open means the latest such day; a date said in full is taken even when it lies ahead.
 */
export function readPastDate(words: readonly string[], from: number, listening: Listening): Read {
  if (from >= words.length) return [];
  const today = dayOf(listening.now, listening.zone);
  const start = words[from] === "on" || words[from] === "since" ? from + 1 : from;
  const found = [
    ...readNamedDay(words, start, today),
    ...readWeekend(words, start, today),
    ...readAgo(words, start, today),
    ...readPastWeekday(words, start, today),
    ...readIso(words, start),
    ...readMonthDate(words, start, today),
    ...readDayAlone(words, start, today),
    ...readFigures(words, start, today),
  ];
  return byLength(found.length > 0 ? found : proposeDate(words, start, today));
}

const readRelative = phrases<number>([
  [0, "today, now, just now, this morning, this afternoon, this evening, tonight, earlier today"],
  [1, "yesterday, last night, yesterday morning, yesterday afternoon, yesterday evening"],
  [2, "day before yesterday, the day before yesterday"],
  [-1, "tomorrow"],
]);

const readNamedDay = (words: readonly string[], from: number, today: Day): Read =>
  readRelative(words, from).map(({ value: days, next }) => ({
    value: today.subtract({ days }).toString(),
    next,
  }));

const readWeekendWord = phrases<"last" | "latest">([
  ["last", "last weekend, the last weekend, the weekend before, past weekend, the past weekend"],
  ["latest", "this weekend, the weekend, at the weekend, over the weekend, weekend"],
]);

/** "last weekend": its Saturday or its Sunday, which is asked; the one that is not over is "this". */
function readWeekend(words: readonly string[], from: number, today: Day): Read {
  return readWeekendWord(words, from).map(({ value: which, next }) => {
    const sunday = today.subtract({ days: today.dayOfWeek });
    const under = today.dayOfWeek > 5 && which === "latest";
    const days = under
      ? [today.subtract({ days: today.dayOfWeek - 6 }), today]
      : [sunday.subtract({ days: 1 }), sunday];
    const choices = days
      .filter((day, index) => index === 0 || !day.equals(days[0] ?? day))
      .map((day) => ({ word: showDay(day), value: day.toString() }));
    const [only] = choices;
    if (choices.length === 1 && only !== undefined) return { value: only.value, next };
    return {
      value: { unsettled: "date" as const, heard: words.slice(from, next).join(" "), choices },
      next,
    };
  });
}

const readSpan = phrases<"days" | "weeks" | "fortnights" | "months" | "years">([
  ["days", "day, days"],
  ["weeks", "week, weeks"],
  ["fortnights", "fortnight, fortnights"],
  ["months", "month, months"],
  ["years", "year, years"],
]);

/** Beyond this, in any span, no film was ever made; Temporal would refuse much later. */
const LONGEST_AGO = 9000;

/** "3 days ago", "a fortnight ago", "two weeks back". */
function readAgo(words: readonly string[], from: number, today: Day): Read {
  return readNumber(words, from).flatMap(
    (number): Read =>
      readSpan(words, number.next).flatMap(({ value: span, next: behind }): Read => {
        if (words[behind] !== "ago" && words[behind] !== "back") return [];
        const next = behind + 1;
        const count = isUnreadable(number.value) ? Number.NaN : number.value;
        if (!Number.isInteger(count) || count < 0 || count > LONGEST_AGO) {
          return [{ value: unreadable(words, from, next), next }];
        }
        const by = span === "fortnights" ? { weeks: 2 * count } : { [span]: count };
        return [{ value: today.subtract(by).toString(), next }];
      }),
  );
}

/** "last tuesday" and "tuesday": the latest one before today. "Tuesday last week" has its week. */
function readPastWeekday(words: readonly string[], from: number, today: Day): Read {
  const monday = today.subtract({ days: today.dayOfWeek - 1 + 7 });
  const inLastWeek = (weekday: number): string => monday.add({ days: weekday - 1 }).toString();
  const lastWeek = (at: number): boolean => words[at] === "last" && words[at + 1] === "week";
  if (lastWeek(from)) {
    const on = words[from + 2] === "on" ? from + 3 : from + 2;
    return readWeekday(words, on).map(({ value, next }) => ({ value: inLastWeek(value), next }));
  }
  const start = ["last", "this", "past"].includes(words[from] ?? "") ? from + 1 : from;
  return readWeekday(words, start).flatMap(({ value: weekday, next }): Read => {
    if (isDateBehind(words, next)) return [];
    const days = (today.dayOfWeek - weekday + 7) % 7 || 7;
    const plain = { value: today.subtract({ days }).toString(), next };
    return lastWeek(next) ? [{ value: inLastWeek(weekday), next: next + 2 }, plain] : [plain];
  });
}

/** "saturday 28 november" and "saturday the 28th" are left to the date behind the weekday. */
function isDateBehind(words: readonly string[], from: number): boolean {
  const the = words[from] === "the" ? from + 1 : from;
  const day = readDay(words, the);
  if (readMonth(words, the).length > 0 || readOrdinal(words, the) !== undefined) return true;
  return day !== undefined && readMonth(words, day.next).length > 0;
}

/** "2026-11-28", also with a time behind it, and "2026/11/28". */
function readIso(words: readonly string[], from: number): Read {
  const match = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:t[\d:.]+z?)?$/.exec(words[from] ?? "");
  if (match === null) return [];
  const date = realDate(Number(match[1]), Number(match[2]), Number(match[3]));
  return [{ value: date?.toString() ?? unreadable(words, from, from + 1), next: from + 1 }];
}

/** "3 november", "november 3rd", "the 3rd of november 2026", "saturday 28 november". */
function readMonthDate(words: readonly string[], from: number, today: Day): Read {
  const named = readWeekday(words, from)[0];
  const weekday = named?.next ?? from;
  const start = words[weekday] === "the" ? weekday + 1 : weekday;
  const dayFirst = readDay(words, start);
  if (dayFirst !== undefined) {
    const of = words[dayFirst.next] === "of" ? dayFirst.next + 1 : dayFirst.next;
    const month = readMonth(words, of)[0];
    return month === undefined
      ? []
      : checked(
          dated(words, from, month.value, dayFirst.value, month.next, today),
          words,
          from,
          named,
        );
  }
  const month = readMonth(words, start)[0];
  if (month === undefined) return [];
  const the = words[month.next] === "the" ? month.next + 1 : month.next;
  const day = readDay(words, the);
  if (day === undefined) return [];
  return checked(dated(words, from, month.value, day.value, day.next, today), words, from, named);
}

/** "monday 27 november" when that was a Friday: the date or the nearest Monday, which is asked. */
function checked(
  dates: Read,
  words: readonly string[],
  from: number,
  named: Reading<number> | undefined,
): Read {
  if (named === undefined) return dates;
  return dates.map(({ value, next }) => {
    if (typeof value !== "string") return { value, next };
    const date = Temporal.PlainDate.from(value);
    const off = (named.value - date.dayOfWeek + 7) % 7;
    if (off === 0) return { value, next };
    const nearest = date.add({ days: off > 3 ? off - 7 : off });
    const choices = [date, nearest]
      .toSorted(Temporal.PlainDate.compare)
      .map((day) => ({ word: showDay(day), value: day.toString() }));
    return {
      value: { unsettled: "date", heard: words.slice(from, next).join(" "), choices },
      next,
    };
  });
}

function dated(
  words: readonly string[],
  from: number,
  month: number,
  day: number,
  next: number,
  today: Day,
): Read {
  const open = latest(month, day, today)?.toString() ?? unreadable(words, from, next);
  const year = readYear(words, next);
  if (year === undefined) return [{ value: open, next }];
  const full = realDate(year.value, month, day)?.toString() ?? unreadable(words, from, year.next);
  return [
    { value: full, next: year.next },
    { value: open, next },
  ];
}

/** The latest day of that name up to today; up to eight years back for 29 February. */
function latest(month: number, day: number, today: Day): Day | undefined {
  for (let back = 0; back <= 8; back += 1) {
    const date = realDate(today.year - back, month, day);
    if (date !== undefined && Temporal.PlainDate.compare(date, today) <= 0) return date;
  }
  return undefined;
}

/** "the 3rd": the latest third of a month up to today. */
function readDayAlone(words: readonly string[], from: number, today: Day): Read {
  const named = readWeekday(words, from)[0];
  const weekday = named?.next ?? from;
  const the = words[weekday] === "the" ? weekday + 1 : weekday;
  const day = readOrdinal(words, the);
  if (day === undefined) return [];
  const { next } = day;
  if (readMonth(words, words[next] === "of" ? next + 1 : next).length > 0) return [];
  for (let back = 0; back <= 3; back += 1) {
    const month = today.with({ day: 1 }).subtract({ months: back });
    const date = realDate(month.year, month.month, day.value);
    if (date !== undefined && Temporal.PlainDate.compare(date, today) <= 0) {
      return checked([{ value: date.toString(), next }], words, from, named);
    }
  }
  return [{ value: unreadable(words, from, next), next }];
}

/** "12/11", "12/11/26", "12.11.2026": day or month first, nobody knows; both are offered. */
function readFigures(words: readonly string[], from: number, today: Day): Read {
  const match =
    /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d\d)$/.exec(words[from] ?? "") ??
    /^(\d{1,2})(\/)(\d{1,2})$/.exec(words[from] ?? "");
  if (match === null) return [];
  const [one, two] = [Number(match[1]), Number(match[3])];
  const written = match[4];
  const year =
    written === undefined ? undefined : Number(written.length === 2 ? `20${written}` : written);
  const of = (month: number, day: number): Day | undefined =>
    year === undefined ? latest(month, day, today) : realDate(year, month, day);
  const next = from + 1;
  const real = [of(two, one), of(one, two)].filter((date) => date !== undefined);
  const [first, second] = real;
  if (first === undefined) return [{ value: unreadable(words, from, next), next }];
  if (second === undefined || first.equals(second)) return [{ value: first.toString(), next }];
  const choices = real.map((date) => ({ word: showDate(date), value: date.toString() }));
  return [{ value: { unsettled: "date", heard: words[from] ?? "", choices }, next }];
}
