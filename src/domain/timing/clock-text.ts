import type { Instant } from "../units/quantity.ts";

const zoned = (at: Instant, zone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toZonedDateTimeISO(zone);

const two = (n: number): string => String(n).padStart(2, "0");

/** Wall clock time in the bench's zone, to the second: "19:31:05". */
export function clockTime(at: Instant, zone: string): string {
  const time = zoned(at, zone);
  return `${two(time.hour)}:${two(time.minute)}:${two(time.second)}`;
}

/** "19:31" for things where seconds say nothing. */
export const clockMinute = (at: Instant, zone: string): string => clockTime(at, zone).slice(0, 5);

/** ISO date in the bench's zone. */
export const dateOf = (at: Instant, zone: string): string =>
  zoned(at, zone).toPlainDate().toString();

const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** A date nobody can misread: "24 November 2026". */
export function showDate(iso: string): string {
  const date = Temporal.PlainDate.from(iso);
  return `${date.day} ${months[date.month - 1]} ${date.year}`;
}

/** Whole days from one ISO date to another; negative when the second is earlier. */
export const daysBetween = (from: string, to: string): number =>
  Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: "days" }).days;

export const showAge = (days: number): string =>
  days <= 0 ? "fresh today" : days === 1 ? "1 day old" : `${days} days old`;

export const isoInstant = (at: Instant): string =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toString();
