import type { Listening, Reading } from "../reader.ts";
import { readPastDate } from "./date-past.ts";
import { dayOf, readMonth, readYear } from "./date-words.ts";

/** The slot `{sinceDate}`: a past day, or a month or year taken from its first day: "march", "2025". */
export function readSinceDate(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<unknown>[] {
  return [...readPastDate(words, from, listening), ...wholeMonth(words, from, listening)];
}

function wholeMonth(
  words: readonly string[],
  from: number,
  { now, zone }: Listening,
): readonly Reading<string>[] {
  const today = dayOf(now, zone);
  const alone = readYear(words, from);
  if (alone !== undefined) return [{ value: `${alone.value}-01-01`, next: alone.next }];
  return readMonth(words, from).map(({ value: month, next }) => {
    const year = readYear(words, next);
    const latest = month <= today.month ? today.year : today.year - 1;
    const day = new Temporal.PlainDate(year?.value ?? latest, month, 1);
    return { value: day.toString(), next: year?.next ?? next };
  });
}
