import type { Day } from "../../domain/reminders/calendar.ts";
import { nthWeekday } from "../../domain/reminders/occurrence.ts";
import type { Reading } from "../reader.ts";
import { proposeDate } from "./date-proposed.ts";
import { readDay, readMonth, readOrdinal, readWeekday, readYear, realDate } from "./date-words.ts";
import { byLength, phrases } from "./phrases.ts";
import { readSpan, type Span } from "./span.ts";
import type { Part } from "./time-ahead.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** The days a phrase can mean, in the order to offer them; none: there is no such day. */
export type Days = {
  readonly days: readonly Day[];
  /** Asked about even where only one of them lies ahead: the words contradict or have two orders. */
  readonly doubt?: true;
  /** "tonight", "this morning": the part of the day is in the word. */
  readonly part?: Part;
};
type Read = readonly Reading<Days>[];

const compare = Temporal.PlainDate.compare;
const earlier = (one: Day, other: Day): boolean => compare(one, other) < 0;
const weeks = (day: Day, count: number): Day => day.add({ weeks: count });

/** A day ahead: what leaves the week, month or year open means the next such day. */
export function readDays(words: readonly string[], from: number, today: Day): Read {
  if (from >= words.length) return [];
  const start = ["on", "for", "until", "till"].includes(words[from] ?? "") ? from + 1 : from;
  const plain = readPlainDays(words, start, today);
  const found = [...plain, ...readShifted(words, start, today)];
  const all = found.length > 0 ? found : readProposed(words, start, today);
  return byLength(all);
}

/** All but "a week from ...", which is read around one of these. */
const readPlainDays = (words: readonly string[], from: number, today: Day): Read => [
  ...readNamed(words, from, today),
  ...readNextPeriod(words, from, today),
  ...readWeekdayAhead(words, from, today),
  ...readWeekend(words, from, today),
  ...readIso(words, from),
  ...readMonthDate(words, from, today),
  ...readNthWeekday(words, from, today),
  ...readDayOfMonth(words, from, today),
  ...readFigures(words, from, today),
];

const readProposed = (words: readonly string[], from: number, today: Day): Read =>
  proposeDate(words, from, today).map(({ value, next }) => ({
    value: { days: [Temporal.PlainDate.from(value)] },
    next,
  }));

type Named = { readonly days: number; readonly part?: Part };
const readNamedWord = phrases<Named>([
  [{ days: 0 }, "today, later today"],
  [{ days: 0, part: "morning" }, "this morning"],
  [{ days: 0, part: "afternoon" }, "this afternoon"],
  [{ days: 0, part: "evening" }, "this evening"],
  [{ days: 0, part: "night" }, "tonight, this night"],
  [{ days: 1 }, "tomorrow"],
  [{ days: 2 }, "day after tomorrow, the day after tomorrow"],
  [{ days: -1 }, "yesterday"],
]);

/** "tomorrow", "tonight"; with "week" behind it a week later: "tomorrow week". */
const readNamed = (words: readonly string[], from: number, today: Day): Read =>
  readNamedWord(words, from).flatMap(({ value: { days, part }, next }) => {
    const day = today.add({ days });
    const value = part === undefined ? { days: [day] } : { days: [day], part };
    const plain = { value, next };
    return words[next] === "week"
      ? [{ value: { days: [weeks(day, 1)] }, next: next + 1 }, plain]
      : [plain];
  });

/** "next week", "next month": its first day, or the same day in it. */
function readNextPeriod(words: readonly string[], from: number, today: Day): Read {
  if (words[from] !== "next") return [];
  const next = from + 2;
  switch (words[from + 1]) {
    case "week":
      return [{ value: { days: [weeks(mondayOf(today), 1), weeks(today, 1)] }, next }];
    case "month": {
      const later = today.add({ months: 1 });
      return [{ value: { days: [later.with({ day: 1 }), later] }, next }];
    }
    default:
      return [];
  }
}

/** The next such weekday after today. */
const coming = (weekday: number, today: Day): Day =>
  today.add({ days: (weekday - today.dayOfWeek + 7) % 7 || 7 });

const mondayOf = (day: Day): Day => day.subtract({ days: day.dayOfWeek - 1 });

/**
 * "friday", "this friday", "next friday", "friday week", "friday next week", "the friday after
 * next". On a Friday "friday" can be today; "next friday" is heard in two ways everywhere.
 */
function readWeekdayAhead(words: readonly string[], from: number, today: Day): Read {
  const nextWeek = (at: number): boolean => words[at] === "next" && words[at + 1] === "week";
  const inNextWeek = (weekday: number): Days => {
    const day = weeks(mondayOf(today), 1).add({ days: weekday - 1 });
    const before = weeks(day, -1);
    // A week begins on Sunday or on Monday, depending on whom one asks.
    return weekday === 7 && earlier(today, before) ? { days: [before, day] } : { days: [day] };
  };
  if (nextWeek(from)) {
    const on = words[from + 2] === "on" ? from + 3 : from + 2;
    return readWeekday(words, on).map(({ value, next }) => ({ value: inNextWeek(value), next }));
  }
  const the = words[from] === "the" ? from + 1 : from;
  const way = words[the] ?? "";
  const start = ["this", "next", "coming"].includes(way) ? the + 1 : the;
  const again = way === "this" && words[start] === "coming" ? start + 1 : start;
  return readWeekday(words, again).flatMap(({ value: weekday, next }): Read => {
    if (isDateBehind(words, next)) return [];
    const first = coming(weekday, today);
    const isToday = weekday === today.dayOfWeek;
    if (way === "next") return [{ value: { days: [first, weeks(first, 1)] }, next }];
    const found: Reading<Days>[] = [];
    if (words[next] === "week") {
      const days = isToday ? [first, weeks(first, 1)] : [weeks(first, 1)];
      found.push({ value: { days }, next: next + 1 });
    }
    if (words[next] === "after" && words[next + 1] === "next") {
      found.push({ value: { days: [weeks(first, 1), weeks(first, 2)] }, next: next + 2 });
    }
    if (nextWeek(next)) found.push({ value: inNextWeek(weekday), next: next + 2 });
    const days = !isToday ? [first] : way === "" || way === "this" ? [today] : [first];
    const open = isToday && way !== "this" && way !== "coming" ? [today, first] : days;
    found.push({ value: { days: open }, next });
    return found;
  });
}

/** "friday 4 december" and "friday the 4th" are left to the date behind the weekday. */
function isDateBehind(words: readonly string[], from: number): boolean {
  const the = words[from] === "the" ? from + 1 : from;
  const day = readDay(words, the);
  if (readMonth(words, the).length > 0 || readOrdinal(words, the) !== undefined) return true;
  return day !== undefined && readMonth(words, day.next).length > 0;
}

/** A weekend stands for its Saturday. */
function readWeekend(words: readonly string[], from: number, today: Day): Read {
  const at = words[from] === "at" || words[from] === "over" ? from + 1 : from;
  const way = ["the", "this", "next"].includes(words[at] ?? "") ? (words[at] ?? "") : "";
  const noun = way === "" ? at : at + 1;
  if (words[noun] !== "weekend") return [];
  const first = coming(6, today);
  const inside = today.dayOfWeek >= 6;
  const days = way === "next" ? [first, weeks(first, 1)] : inside ? [today, first] : [first];
  return [{ value: { days }, next: noun + 1 }];
}

/** "2026-12-04", "2026/12/04"; a "t20:00" behind it is read by the caller. */
function readIso(words: readonly string[], from: number): Read {
  const match = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(words[from] ?? "");
  if (match === null) return [];
  const date = realDate(Number(match[1]), Number(match[2]), Number(match[3]));
  return [{ value: { days: date === undefined ? [] : [date] }, next: from + 1 }];
}

/** The next day of that name from today on; up to eight years ahead for 29 February. */
function nextDate(month: number, day: number, today: Day): Day | undefined {
  for (let ahead = 0; ahead <= 8; ahead += 1) {
    const date = realDate(today.year + ahead, month, day);
    if (date !== undefined && !earlier(date, today)) return date;
  }
  return undefined;
}

/** "4 december", "december 4th", "the fourth of december 2026", "friday 4 december". */
function readMonthDate(words: readonly string[], from: number, today: Day): Read {
  const named = readWeekday(words, from)[0];
  const weekday = named?.next ?? from;
  const start = words[weekday] === "the" ? weekday + 1 : weekday;
  const dayFirst = readDay(words, start);
  let day = dayFirst;
  let month = undefined as Reading<number> | undefined;
  if (dayFirst !== undefined) {
    month = readMonth(words, words[dayFirst.next] === "of" ? dayFirst.next + 1 : dayFirst.next)[0];
  } else {
    month = readMonth(words, start)[0];
    if (month !== undefined) {
      day = readDay(words, words[month.next] === "the" ? month.next + 1 : month.next);
    }
  }
  if (day === undefined || month === undefined) return [];
  const next = Math.max(day.next, month.next);
  const open = nextDate(month.value, day.value, today);
  const year = readYear(words, next);
  const found: Reading<Days>[] = [];
  if (year !== undefined) {
    const date = realDate(year.value, month.value, day.value);
    found.push({ value: checked(date, named?.value), next: year.next });
  }
  found.push({ value: checked(open, named?.value), next });
  return found;
}

/** A date with the weekday that was said beside it: where they disagree, both are offered. */
function checked(date: Day | undefined, weekday: number | undefined): Days {
  if (date === undefined) return { days: [] };
  if (weekday === undefined || date.dayOfWeek === weekday) return { days: [date] };
  const off = (weekday - date.dayOfWeek + 7) % 7;
  return { days: [date, date.add({ days: off > 3 ? off - 7 : off })], doubt: true };
}

const readLast = phrases<-1>([[-1, "last"]]);
const readNth = phrases<number>([
  [1, "first, 1st"],
  [2, "second, 2nd"],
  [3, "third, 3rd"],
  [4, "fourth, 4th"],
]);

/** The nth of "first saturday", "last sunday"; for recurrences as well. */
export function readNthOf(
  words: readonly string[],
  from: number,
): Reading<{ readonly nth: number; readonly weekday: number }> | undefined {
  const the = words[from] === "the" ? from + 1 : from;
  const nth = readLast(words, the)[0] ?? readNth(words, the)[0];
  const weekday = nth === undefined ? undefined : readWeekday(words, nth.next)[0];
  if (nth === undefined || weekday === undefined) return undefined;
  return { value: { nth: nth.value, weekday: weekday.value }, next: weekday.next };
}

/** The month a phrase names, as its first day: "december", "december 2027", "the month", "next month". */
function readMonthNamed(
  words: readonly string[],
  from: number,
  today: Day,
): readonly Reading<{ readonly month: Day; readonly open: boolean; readonly step: number }>[] {
  const first = today.with({ day: 1 });
  const two = [words[from], words[from + 1]].join(" ");
  if (two === "next month") {
    return [{ value: { month: first.add({ months: 1 }), open: false, step: 0 }, next: from + 2 }];
  }
  if (two === "the month" || two === "this month") {
    return [{ value: { month: first, open: two === "the month", step: 1 }, next: from + 2 }];
  }
  return readMonth(words, from).flatMap(({ value, next }) => {
    const year = readYear(words, next);
    const month = first.with({ month: value });
    const plain = { value: { month, open: true, step: 12 }, next };
    if (year === undefined) return [plain];
    return [
      { value: { month: month.with({ year: year.value }), open: false, step: 0 }, next: year.next },
      plain,
    ];
  });
}

/** The day `pick` finds in a month; in an open one that is over, in the next such month. */
function inMonth(
  { month, open, step }: { readonly month: Day; readonly open: boolean; readonly step: number },
  today: Day,
  pick: (month: Day) => Day | undefined,
): Days {
  for (let turn = 0; turn < 3; turn += 1) {
    const day = pick(month.add({ months: turn * step }));
    if (day !== undefined && (!open || !earlier(day, today))) return { days: [day] };
    if (!open) break;
  }
  return { days: [] };
}

/** "first saturday of december", "the last sunday in march 2027", "the last day of the month". */
function readNthWeekday(words: readonly string[], from: number, today: Day): Read {
  const the = words[from] === "the" ? from + 1 : from;
  const end =
    words[the] === "end"
      ? the + 1
      : words[the] === "last" && words[the + 1] === "day"
        ? the + 2
        : undefined;
  const nth = readNthOf(words, from);
  const behind = end ?? nth?.next;
  if (behind === undefined || !["of", "in"].includes(words[behind] ?? "")) return [];
  return readMonthNamed(words, behind + 1, today).map(({ value, next }) => ({
    value: inMonth(value, today, (month) =>
      nth === undefined || end !== undefined
        ? month.with({ day: month.daysInMonth })
        : nthWeekday(month, nth.value.nth, nth.value.weekday),
    ),
    next,
  }));
}

/** "the 15th", "on the first", "the 3rd of next month", "tuesday the 1st". */
function readDayOfMonth(words: readonly string[], from: number, today: Day): Read {
  const named = readWeekday(words, from)[0];
  const weekday = named?.next ?? from;
  const the = words[weekday] === "the" ? weekday + 1 : weekday;
  const day = readOrdinal(words, the);
  if (day === undefined) return [];
  const { next } = day;
  const of = words[next] === "of" || words[next] === "in" ? next + 1 : next;
  if (of > next) {
    return readMonthNamed(words, of, today)
      .filter(() => readMonth(words, of).length === 0)
      .map(({ value, next: end }) => ({
        value: inMonth(value, today, (month) => realDate(month.year, month.month, day.value)),
        next: end,
      }));
  }
  if (readMonth(words, next).length > 0) return [];
  // A bare "first" or "second" begins another phrase; "the first" and "1st" are days.
  if (the === from && !/^\d/.test(words[the] ?? "")) return [];
  const first = today.with({ day: 1 });
  const days = [0, 1, 2, 3, 4].flatMap((months) => {
    const month = first.add({ months });
    const date = realDate(month.year, month.month, day.value);
    return date === undefined || earlier(date, today) ? [] : [date];
  });
  const [soonest, second] = days;
  if (soonest === undefined) return [{ value: { days: [] }, next }];
  if (named === undefined) {
    const open = soonest.equals(today) && second !== undefined;
    return [{ value: { days: open ? [soonest, second] : [soonest] }, next }];
  }
  if (soonest.dayOfWeek === named.value) return [{ value: { days: [soonest] }, next }];
  const right = days.find(({ dayOfWeek }) => dayOfWeek === named.value);
  return [
    { value: { days: right === undefined ? [soonest] : [soonest, right], doubt: true }, next },
  ];
}

/** "12/11", "12/11/26", "1.11.26": day or month first, nobody knows; both are offered. */
function readFigures(words: readonly string[], from: number, today: Day): Read {
  const word = words[from] ?? "";
  const match =
    /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d\d)$/.exec(word) ?? /^(\d{1,2})(\/)(\d{1,2})$/.exec(word);
  if (match === null) return [];
  const [one, two] = [Number(match[1]), Number(match[3])];
  const written = match[4];
  const year =
    written === undefined ? undefined : Number(written.length === 2 ? `20${written}` : written);
  const of = (month: number, day: number): Day | undefined =>
    year === undefined ? nextDate(month, day, today) : realDate(year, month, day);
  const both = [of(two, one), of(one, two)].filter((date) => date !== undefined);
  const [first, second] = both;
  const next = from + 1;
  if (first === undefined) return [{ value: { days: [] }, next }];
  if (second === undefined || first.equals(second)) return [{ value: { days: [first] }, next }];
  return [{ value: { days: both, doubt: true }, next }];
}

const isWhole = ({ months, days, ms }: Span): boolean =>
  ms === 0 && Number.isInteger(months) && Number.isInteger(days);

/** "a week from friday", "two weeks on monday", "the day after friday", "3 days before the 15th". */
function readShifted(words: readonly string[], from: number, today: Day): Read {
  const the = words[from] === "the" ? from + 1 : from;
  const spans: readonly Reading<Span | Unreadable>[] =
    words[the] === "day"
      ? [{ value: { months: 0, days: 1, ms: 0 }, next: the + 1 }]
      : readSpan(words, from);
  return spans.flatMap(({ value: span, next: behind }): Read => {
    if (isUnreadable(span) || !isWhole(span)) return [];
    const way = words[behind] ?? "";
    const forward = ["from", "after", "on"].includes(way);
    const bare = way === "today" || way === "tomorrow";
    if (!forward && !bare && way !== "before") return [];
    if (way === "from" && words[behind + 1] === "now") {
      return [{ value: { days: [shift(today, span, 1)] }, next: behind + 2 }];
    }
    return readPlainDays(words, bare ? behind : behind + 1, today).map(({ value, next }) => ({
      value: {
        ...value,
        days: value.days.map((day) => shift(day, span, way === "before" ? -1 : 1)),
      },
      next,
    }));
  });
}

export const shift = (day: Day, { months, days }: Span, sign: 1 | -1): Day =>
  day.add({ months: sign * months, days: sign * days });
