import { causes } from "../../data/faults.ts";
import type { Reading } from "../reader.ts";
import { toWords } from "../words.ts";
import { articles, byLength, phrases, skip } from "./phrases.ts";

/** "It was the bottle": which one, the ranking tells. */
export const THE_BOTTLE = "bottle";

const spoken = (way: string): string => toWords(way).words.join(" ");

const read = phrases<string>([
  [THE_BOTTLE, "the bottle, bottle, that bottle, a bad bottle"],
  ...causes.map(({ id, name, ways }) => [id, [name, ...ways].map(spoken).join(",")] as const),
]);

/** The slot `{cause}`: what was to blame for a fault, by its id. */
export const readCause = (words: readonly string[], from: number): readonly Reading<string>[] =>
  byLength([...read(words, from), ...read(words, skip(words, from, articles))]);
