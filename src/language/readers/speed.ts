import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import type { Unreadable } from "./unreadable.ts";

type Read = readonly Reading<number | Unreadable>[];

/** Common usage, no source. */
const readNamed = phrases<number>([
  [1, "at real speed, real speed, in real time, at real time, real time, at normal speed"],
  [2, "twice as fast, at double speed, double speed, at twice the speed"],
]);
const readTimes = phrases<true>([
  [true, "x, times, fold, times faster, times as fast, x faster, x as fast, fold faster"],
  [true, "times the speed, times speed, x speed, times quicker, x quicker"],
]);

/** The slot `{speed}`: "five times faster", "10x", "at 20 times the speed", "real speed". */
export function readSpeed(words: readonly string[], from: number): Read {
  const start = words[from] === "at" ? from + 1 : from;
  const counted = readNumber(words, start).flatMap(
    ({ value, next }): Read => readTimes(words, next).map((times) => ({ value, next: times.next })),
  );
  return byLength([...readNamed(words, from), ...counted]);
}
