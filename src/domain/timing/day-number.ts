/**
 * ISO dates as whole days since 1970-01-01 in the proleptic Gregorian calendar, and back. A bench
 * of 200 bottles compares thousands of dates for one answer: parsing each into a calendar object
 * would cost more than all the rest. The arithmetic counts years from March, so that the leap day
 * comes last (own derivation, checked against Temporal).
 */
export function dayNumber(iso: string): number {
  const match = /^([+-]\d{6}|\d{4})-(\d\d)-(\d\d)$/.exec(iso);
  if (match === null) throw new RangeError(`not an ISO date: ${iso}`);
  const month = Number(match[2]);
  const year = Number(match[1]) - (month <= 2 ? 1 : 0);
  const era = Math.floor(year / 400);
  const yearOfEra = year - era * 400;
  const dayOfYear =
    Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + Number(match[3]) - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** The first and the last day of the years that an ISO date has four digits for. */
const FIRST_DAY = dayNumber("0000-01-01");
const LAST_DAY = dayNumber("9999-12-31");

/**
 * The ISO date of a day number. Dates are compared as text and told as dates, so a day beyond the
 * years of four digits is the nearest of them: nothing on a bench keeps so long.
 */
export function isoOfDay(day: number): string {
  const shifted = Math.max(FIRST_DAY, Math.min(LAST_DAY, day)) + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const date = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${String(year).padStart(4, "0")}-${two(month)}-${two(date)}`;
}
