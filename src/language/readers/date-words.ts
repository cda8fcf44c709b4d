import type { Reading } from "../reader.ts";
import { phrases } from "./phrases.ts";

/** English names of months and days with their usual short forms. */
export const readMonth = phrases<number>([
  [1, "january, jan"],
  [2, "february, feb"],
  [3, "march, mar"],
  [4, "april, apr"],
  [5, "may"],
  [6, "june, jun"],
  [7, "july, jul"],
  [8, "august, aug"],
  [9, "september, sep, sept"],
  [10, "october, oct"],
  [11, "november, nov"],
  [12, "december, dec"],
]);

/** 1 is Monday, as in ISO 8601. */
export const readWeekday = phrases<number>([
  [1, "monday, mon, mondays"],
  [2, "tuesday, tue, tues, tuesdays"],
  [3, "wednesday, wed, weds"],
  [4, "thursday, thu, thur, thurs"],
  [5, "friday, fri, fridays"],
  [6, "saturday, sat"],
  [7, "sunday, sun"],
]);

const ordinals =
  "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth thirtieth".split(
    " ",
  );
const spoken = phrases<number>([
  ...ordinals.map((word, index) => [index === 20 ? 30 : index + 1, word] as const),
  ...ordinals.slice(0, 9).map((word, index) => [21 + index, `twenty ${word}`] as const),
  [31, "thirty first"],
]);

/** A day of the month that says it is one: "3rd", "third", "twenty first". */
export function readOrdinal(words: readonly string[], from: number): Reading<number> | undefined {
  const match = /^(\d{1,2})(?:st|nd|rd|th)$/.exec(words[from] ?? "");
  return match === null ? spoken(words, from)[0] : { value: Number(match[1]), next: from + 1 };
}

/** The same, or the plain number: "3". */
export function readDay(words: readonly string[], from: number): Reading<number> | undefined {
  const word = words[from] ?? "";
  return /^\d{1,2}$/.test(word)
    ? { value: Number(word), next: from + 1 }
    : readOrdinal(words, from);
}

/** "2026", "'26" without its apostrophe does not count: two digits alone are no year. */
export const readYear = (words: readonly string[], from: number): Reading<number> | undefined =>
  /^(?:1[5-9]|20)\d\d$/.test(words[from] ?? "")
    ? { value: Number(words[from]), next: from + 1 }
    : undefined;

const monthNames =
  "January February March April May June July August September October November December".split(
    " ",
  );

/** "12 November 2026": no order of day and month to mistake. */
export const showDate = (date: Temporal.PlainDate): string =>
  `${date.day} ${monthNames[date.month - 1]} ${date.year}`;

/** The calendar day of an instant where the bench stands. */
export const dayOf = (now: number, zone: string): Temporal.PlainDate =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(now)).toZonedDateTimeISO(zone).toPlainDate();

/** A date that exists, or undefined: no 31 February. */
export function realDate(year: number, month: number, day: number): Temporal.PlainDate | undefined {
  if (month < 1 || month > 12 || day < 1) return undefined;
  const first = Temporal.PlainDate.from({ year, month, day: 1 });
  return day > first.daysInMonth ? undefined : first.with({ day });
}
