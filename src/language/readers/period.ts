import type { Listening, Reading } from "../reader.ts";
import { readPastDate } from "./date-past.ts";
import {
  dayOf,
  readDay,
  readMonth,
  readOrdinal,
  readWeekday,
  readYear,
  realDate,
} from "./date-words.ts";
import { readNumber } from "./number.ts";
import { phrases } from "./phrases.ts";

/** Days of a bench, ISO dates, both counted in; open where an end is missing. */
export type Period = { readonly from?: string; readonly to?: string };
type Whole = { readonly from: string; readonly to: string };
type Day = Temporal.PlainDate;
type Read<T> = readonly Reading<T>[];

const days = (from: Day, to: Day): Whole => ({ from: from.toString(), to: to.toString() });

const readSpan = phrases<"days" | "weeks" | "months" | "years">([
  ["days", "day, days"],
  ["weeks", "week, weeks"],
  ["months", "month, months"],
  ["years", "year, years"],
]);

/** Longer back than this there is no log. */
const LONGEST = 9000;

/** "This month", "last year", "last three weeks": up to today, or the whole one before. */
function readSpanOf(words: readonly string[], from: number, today: Day): Read<Whole> {
  const first = words[from] ?? "";
  if (!["this", "last", "past", "previous"].includes(first)) return [];
  const counted = readNumber(words, from + 1).flatMap(({ value: count, next }) =>
    typeof count === "number" && Number.isInteger(count) && count > 0 && count <= LONGEST
      ? readSpan(words, next).map(({ value: span, next: end }) => ({
          value: days(today.subtract({ [span]: count }).add({ days: 1 }), today),
          next: end,
        }))
      : [],
  );
  const plain = readSpan(words, from + 1).map(({ value: span, next }) => {
    const start =
      span === "weeks"
        ? today.subtract({ days: today.dayOfWeek - 1 })
        : span === "months"
          ? today.with({ day: 1 })
          : span === "years"
            ? today.with({ month: 1, day: 1 })
            : today;
    return first === "this"
      ? { value: days(start, today), next }
      : { value: days(start.subtract({ [span]: 1 }), start.subtract({ days: 1 })), next };
  });
  return [...counted, ...plain];
}

/** "October", "October 2025": without a year the latest that has begun. */
function readMonthOf(words: readonly string[], from: number, today: Day): Read<Whole> {
  return readMonth(words, from).map(({ value: month, next }) => {
    const said = readYear(words, next);
    const year = said?.value ?? (month <= today.month ? today.year : today.year - 1);
    const first = Temporal.PlainDate.from({ year, month, day: 1 });
    return { value: days(first, first.with({ day: first.daysInMonth })), next: said?.next ?? next };
  });
}

function readYearOf(words: readonly string[], from: number): Read<Whole> {
  const year = readYear(words, from);
  const first = year === undefined ? undefined : realDate(year.value, 1, 1);
  return year === undefined || first === undefined
    ? []
    : [{ value: days(first, first.with({ month: 12, day: 31 })), next: year.next }];
}

const named: ReadonlySet<string> = new Set(["today", "yesterday", "tonight"]);

/** Looks like a day, so that the reader of days need not try hard at every word of a sentence. */
function beginsDay(words: readonly string[], from: number): boolean {
  const word = words[from] ?? "";
  const the = word === "the" ? from + 1 : from;
  if (/^\d{4}-\d/.test(word) || named.has(word) || readWeekday(words, from).length > 0) return true;
  if (word === "last") {
    return (
      readWeekday(words, from + 1).length > 0 || /^(night|weekend)$/.test(words[from + 1] ?? "")
    );
  }
  if (readOrdinal(words, the) !== undefined || readMonth(words, from).length > 0) return true;
  const day = readDay(words, the);
  const of = day !== undefined && words[day.next] === "of" ? day.next + 1 : day?.next;
  if (of !== undefined && readMonth(words, of).length > 0) return true;
  return readNumber(words, from).some(({ next }) =>
    readSpan(words, next).some(({ next: end }) => words[end] === "ago"),
  );
}

function readDayOf(words: readonly string[], from: number, listening: Listening): Read<Whole> {
  if (!beginsDay(words, from)) return [];
  return readPastDate(words, from, listening).flatMap(({ value, next }) =>
    typeof value === "string" ? [{ value: { from: value, to: value }, next }] : [],
  );
}

function readWhole(words: readonly string[], from: number, listening: Listening): Read<Whole> {
  const today = dayOf(listening.now, listening.zone);
  const start = words[from] === "the" && beginsDay(words, from) === false ? from + 1 : from;
  return [
    ...readDayOf(words, from, listening),
    ...readSpanOf(words, start, today),
    ...readMonthOf(words, start, today),
    ...readYearOf(words, start),
  ];
}

const shifted = (iso: string, by: number): string =>
  Temporal.PlainDate.from(iso).add({ days: by }).toString();

/** "In October", "since 3 November", "between March and May", "before last month", "yesterday". */
export function readPeriod(
  words: readonly string[],
  from: number,
  listening: Listening,
): Read<Period> {
  const word = words[from] ?? "";
  const behind = (): Read<Whole> => readWhole(words, from + 1, listening);
  switch (word) {
    case "in":
    case "on":
    case "during":
    case "within":
    case "of":
      return behind();
    case "since":
      return behind().map(({ value, next }) => ({ value: { from: value.from }, next }));
    case "after":
      return behind().map(({ value, next }) => ({ value: { from: shifted(value.to, 1) }, next }));
    case "before":
      return behind().map(({ value, next }) => ({ value: { to: shifted(value.from, -1) }, next }));
    case "until":
    case "till":
      return behind().map(({ value, next }) => ({ value: { to: value.to }, next }));
    case "between":
    case "from":
      return behind().flatMap((start) => {
        const joint = words[start.next] ?? "";
        const both = ["and", "to", "until", "till"].includes(joint)
          ? readWhole(words, start.next + 1, listening).map(({ value, next }) => ({
              value: { from: start.value.from, to: value.to },
              next,
            }))
          : [];
        const since = word === "from" ? { from: start.value.from, to: start.value.to } : undefined;
        return since === undefined ? both : [...both, { value: since, next: start.next }];
      });
    default:
      return readWhole(words, from, listening);
  }
}
