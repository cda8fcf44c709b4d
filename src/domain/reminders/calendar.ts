import { type Instant, instant } from "../units/quantity.ts";

/** Days and times of a bench, in its own zone. All of it is Temporal; nothing here reads a clock. */
export type Day = Temporal.PlainDate;

/** A time of day on the wall clock. */
export type TimeOfDay = { readonly hour: number; readonly minute: number };

/**
 * Where a local time met a clock change. `gap`: it does not exist that day, clocks go forward over
 * it. `twice`: clocks go back over it.
 */
export type Shift = "gap" | "twice";

export const zonedAt = (at: Instant, zone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toZonedDateTimeISO(zone);

export const dayAt = (at: Instant, zone: string): Day => zonedAt(at, zone).toPlainDate();

/**
 * The instant of a local time. The rule for clock changes: a time that does not exist is taken as
 * long after the change as it was meant after midnight (01:30 becomes 02:30), and of a time that
 * comes twice the first is taken. The calendar standard does the same (RFC 5545, 3.3.5).
 */
export function instantOf(
  day: Day,
  time: TimeOfDay,
  zone: string,
): { readonly at: Instant; readonly shift?: Shift } {
  const local = day.toPlainDateTime(time);
  const zoned = local.toZonedDateTime(zone);
  const at = instant(zoned.epochMilliseconds);
  if (!zoned.toPlainDateTime().equals(local)) return { at, shift: "gap" };
  const second = local.toZonedDateTime(zone, { disambiguation: "later" });
  return second.epochMilliseconds === at ? { at } : { at, shift: "twice" };
}

const days = "Monday Tuesday Wednesday Thursday Friday Saturday Sunday".split(" ");
const months =
  "January February March April May June July August September October November December".split(
    " ",
  );

export const weekdayName = (weekday: number): string => days[weekday - 1] ?? "";
export const monthName = (month: number): string => months[month - 1] ?? "";

const two = (n: number): string => String(n).padStart(2, "0");

export const showTime = ({ hour, minute }: TimeOfDay): string => `${two(hour)}:${two(minute)}`;

/** "Friday 4 December 2026": nothing left to misread. */
export const showDay = (day: Day): string =>
  `${weekdayName(day.dayOfWeek)} ${day.day} ${monthName(day.month)} ${day.year}`;

/** "Friday 4 December 2026, 20:00". Seconds only where there are any. */
export function showMoment(at: Instant, zone: string): string {
  const local = zonedAt(at, zone);
  const seconds = local.second === 0 ? "" : `:${two(local.second)}`;
  return `${showDay(local.toPlainDate())}, ${showTime(local)}${seconds}`;
}

/** For the ear: "Friday 4 December at 20:00". */
export function sayMoment(at: Instant, zone: string): string {
  const local = zonedAt(at, zone);
  return `${sayDay(local.toPlainDate())} at ${showTime(local)}`;
}

export const sayDay = (day: Day): string =>
  `${weekdayName(day.dayOfWeek)} ${day.day} ${monthName(day.month)}`;

/** What is said of a time that met a clock change. */
export function explainShift(shift: Shift, asked: TimeOfDay, at: Instant, zone: string): string {
  const taken = showTime(zonedAt(at, zone));
  return shift === "gap"
    ? `${showTime(asked)} does not exist that day, the clocks go forward: ${taken} instead.`
    : `${showTime(asked)} comes twice that day, the clocks go back: the first one counts.`;
}

const epoch = Temporal.PlainDate.from("1970-01-01");

/**
 * Days since 1970-01-01, by whole numbers alone: the daily look counts them for every bottle of
 * every bench. Years begin in March, so that the leap day is their last.
 */
export function dayNumber({ year, month, day }: Pick<Day, "year" | "month" | "day">): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** The same of an ISO date, "2026-12-04". */
export const isoDayNumber = (iso: string): number =>
  dayNumber({
    year: Number(iso.slice(0, 4)),
    month: Number(iso.slice(5, 7)),
    day: Number(iso.slice(8, 10)),
  });

/** The last day that is planned for, as a day number: years have four digits. */
export const LAST_DAY = isoDayNumber("9999-12-31");

export const dayOfNumber = (number: number): Day => epoch.add({ days: number });
