import type { Reading } from "../reader.ts";
import { readText } from "./free-text.ts";

/**
 * The slot `{task}`: free text with something behind it, the shortest first: "order fixer friday
 * 8pm" is a task for Friday 8 pm, not "order fixer friday" for 8 pm.
 */
export const readTask = (words: readonly string[], from: number): readonly Reading<string>[] =>
  readText(words, from).toReversed();
