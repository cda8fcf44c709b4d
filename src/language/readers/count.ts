import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import type { Unreadable } from "./unreadable.ts";

/**
 * The slot `{count}`: any number, "a" and "a couple of" included. Half a roll and minus two are
 * read as said, so that the command can answer with the number it heard.
 */
export const readCount = (
  words: readonly string[],
  from: number,
): readonly Reading<number | Unreadable>[] => readNumber(words, from);
