import type { Reading } from "../reader.ts";
import { readText } from "./free-text.ts";

/** "Into the cellar" is where it then stands: "in the cellar". */
const standing: ReadonlyMap<string, string> = new Map([
  ...["in", "on", "under", "at", "behind", "beside", "by", "above", "below", "near"].map(
    (word): [string, string] => [word, word],
  ),
  ["into", "in"],
  ["to", "in"],
  ["onto", "on"],
]);

/** The slot `{place}`: a preposition and what is behind it, "in the cellar". */
export function readPlace(words: readonly string[], from: number): readonly Reading<string>[] {
  const first = standing.get(words[from] ?? "");
  if (first === undefined) return [];
  return readText(words, from + 1).map(({ value, next }) => ({ value: `${first} ${value}`, next }));
}
