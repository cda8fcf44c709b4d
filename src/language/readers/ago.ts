import type { Listening, Reading } from "../reader.ts";
import { readDuration } from "./duration.ts";
import { skip } from "./phrases.ts";

const about: ReadonlySet<string> = new Set(["about", "around", "some"]);

/** The slot `{ago}`: "two hours ago", s. */
export const readAgo = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading[] =>
  readDuration(words, skip(words, from, about), listening).flatMap(({ value, next }) =>
    words[next] === "ago" ? [{ value, next: next + 1 }] : [],
  );
