import type { Listening, Reading } from "../reader.ts";
import { readWhen, type WhenValue } from "./date-future.ts";
import { byLength } from "./phrases.ts";

/** The slot `{delay}`: how long to wait, or until when: "two days", "for an hour", "until monday". */
export function readDelay(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<WhenValue>[] {
  const first = words[from] ?? "";
  const start = ["for", "until", "till", "to", "by"].includes(first) ? from + 1 : from;
  // "two days" is "in two days": the same reader, one word moved in.
  const within = readWhen(["in", ...words.slice(start)], 0, listening).map(({ value, next }) => ({
    value,
    next: next - 1 + start,
  }));
  const until = [from, start].flatMap((at) => readWhen(words, at, listening));
  return byLength([...within.filter(({ next }) => next > start), ...until]);
}
