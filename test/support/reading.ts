import { instant } from "../../src/domain/units/quantity.ts";
import type { Listening, SlotReader } from "../../src/language/reader.ts";
import { isUnreadable } from "../../src/language/readers/unreadable.ts";
import { toWords } from "../../src/language/words.ts";

/** A bench without habits, on Saturday 28 November 2026, 23:30 in New York (the 29th in Berlin). */
export const quietBench: Listening = {
  now: instant(Date.parse("2026-11-29T04:30:00Z")),
  zone: "America/New_York",
  names: { bottle: new Map(), sheet: new Map(), tank: new Map() },
};

/** The longest reading of a phrase when it takes the whole phrase; "nothing" otherwise. */
export function readWhole<T>(
  read: SlotReader<T>,
  phrase: string,
  habits: Partial<Listening> = {},
): T | "nothing" {
  const { words } = toWords(phrase);
  const first = read(words, 0, { ...quietBench, ...habits })[0];
  return first !== undefined && first.next === words.length ? first.value : "nothing";
}

/** Every reading as [value, words taken], for what a matcher may fall back to. */
export const readAll = <T>(
  read: SlotReader<T>,
  phrase: string,
  habits: Partial<Listening> = {},
): (readonly [T, number])[] =>
  read(toWords(phrase).words, 0, { ...quietBench, ...habits }).map(
    ({ value, next }) => [value, next] as const,
  );

/** The words and values of an open question: `{ us: 946, imperial: 1137 }`. */
export function choicesOf(value: unknown): unknown {
  if (isUnreadable(value) || typeof value !== "object" || value === null) return value;
  if (!("choices" in value) || !Array.isArray(value.choices)) return value;
  return Object.fromEntries(value.choices.map((choice) => [choice.word, choice.value]));
}
