import { monthName, showTime, weekdayName } from "./calendar.ts";
import type { Repeats } from "./reminder.ts";

const ordinals: Readonly<Record<number, string>> = {
  [-1]: "last",
  1: "first",
  2: "second",
  3: "third",
  4: "fourth",
};

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

/** A rule in words: "every Sunday at 18:00", "every 2 weeks", "every month on the last Friday". */
export function showRepeats(rule: Repeats): string {
  const time = rule.time === undefined ? "" : ` at ${showTime(rule.time)}`;
  return `${days(rule)}${time}`;
}

function days({ every, unit, weekdays, monthDay, nth, from }: Repeats): string {
  const period = every === 1 ? `every ${unit.slice(0, -1)}` : `every ${every} ${unit}`;
  switch (unit) {
    case "days":
      return period;
    case "weeks": {
      if (weekdays === undefined) return period;
      const names = list(weekdays.map(weekdayName));
      return every === 1 ? `every ${names}` : `${period} on ${names}`;
    }
    case "months":
      if (nth !== undefined) {
        return `${period} on the ${ordinals[nth.nth] ?? ""} ${weekdayName(nth.weekday)}`;
      }
      return monthDay === 31
        ? `${period} on the last day`
        : `${period} on the ${ordinal(monthDay ?? Temporal.PlainDate.from(from).day)}`;
    case "years": {
      const first = Temporal.PlainDate.from(from);
      return `${period} on ${monthDay ?? first.day} ${monthName(first.month)}`;
    }
  }
}

function ordinal(day: number): string {
  const tens = Math.floor(day / 10) % 10;
  const ending = tens === 1 ? "th" : (["th", "st", "nd", "rd"][day % 10] ?? "th");
  return `${day}${ending}`;
}

/** A month that has no such day uses its last: said once, when it is set. */
export const explainShortMonths = ({ unit, monthDay }: Repeats): string | undefined =>
  unit === "months" && monthDay !== undefined && monthDay > 28 && monthDay < 31
    ? `A month without a ${ordinal(monthDay)} uses its last day.`
    : unit === "months" && monthDay === 31
      ? "That is the 31st, 30th, 29th or 28th, as the month goes."
      : undefined;
