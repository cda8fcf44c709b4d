import { createRequire } from "node:module";
import type { Reading } from "../reader.ts";
import { realDate } from "./date-words.ts";

const require = createRequire(import.meta.url);
/** English alone, and not before it is needed: few dates are, and a start has no time for it. */
const chrono = () => require("chrono-node/en") as typeof import("chrono-node/en");

/** A token in which a month is written out together with figures: "28-nov-2026", "3nov". */
const hasMonth =
  /(?:^|[^a-z])(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*(?:[^a-z]|$)/;
const hasDigit = /\d/;

/** No date takes more words. */
const LONGEST = 4;

/**
 * Spellings our own phrases do not know, left to chrono. Only its day, month and year are believed,
 * and only when all of them were written: it guesses the rest forwards or backwards as it likes.
 */
export function proposeDate(
  words: readonly string[],
  from: number,
  today: Temporal.PlainDate,
): readonly Reading<string>[] {
  const some = words.slice(from, from + LONGEST).map((word) => word.slice(0, 20));
  const sentence = some.join(" ");
  if (!hasDigit.test(some[0] ?? "") || !hasMonth.test(sentence)) return [];
  const reference = new Date(Date.UTC(today.year, today.month - 1, today.day, 12));
  const result = chrono().GB.parse(sentence, reference)[0];
  if (result === undefined || result.index !== 0 || result.end !== null) return [];
  const read = result.start;
  if (!read.isCertain("day") || !read.isCertain("month") || !read.isCertain("year")) return [];
  const date = realDate(read.get("year") ?? 0, read.get("month") ?? 0, read.get("day") ?? 0);
  const end = result.text.trimEnd().length;
  const behind = sentence.slice(end);
  if (date === undefined || (behind !== "" && !behind.startsWith(" "))) return [];
  const count = sentence.slice(0, end).split(" ").length;
  return [{ value: date.toString(), next: from + count }];
}
