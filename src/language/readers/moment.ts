import type { Listening, Reading } from "../reader.ts";
import { readWhen, type WhenValue } from "./date-future.ts";
import { byLength } from "./phrases.ts";
import { type RepeatsValue, readRepeats } from "./recurrence.ts";

/** The slot `{when}`: a moment ahead, once or again and again. */
export const readMoment = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<WhenValue | RepeatsValue>[] =>
  byLength<WhenValue | RepeatsValue>([
    ...readWhen(words, from, listening),
    ...readRepeats(words, from, listening),
  ]);
