import { type Instant, instant } from "../../domain/units/quantity.ts";

/** A bench works between these years; anything else is a slip of the finger. */
const FIRST_YEAR = 1970;
export const LAST_YEAR = 2999;

/**
 * An instant with its offset or its own zone; without either it is taken in `zone`. A time that a
 * change to summer time leaves out is the same count of minutes after the change; of one that
 * comes twice the first is meant.
 */
export function readInstant(text: string, zone: string): Instant | undefined {
  const read = readZoned(text, zone);
  if (read === undefined) return undefined;
  const { year } = read.toZonedDateTimeISO("UTC");
  return year < FIRST_YEAR || year > LAST_YEAR ? undefined : instant(read.epochMilliseconds);
}

function readZoned(text: string, zone: string): Temporal.Instant | undefined {
  const ways = [
    () => Temporal.Instant.from(text),
    () =>
      // Read as plain, a zone that does not exist would be passed over.
      text.includes("[")
        ? Temporal.ZonedDateTime.from(text).toInstant()
        : Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant(),
  ];
  for (const way of ways) {
    try {
      return way();
    } catch {
      // Not said this way; perhaps in the next one.
    }
  }
  return undefined;
}
