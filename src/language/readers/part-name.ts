import type { Reading } from "../reader.ts";

/** The slot `{partName}`: "water", or what kits call their parts: "B", "part B", "A1", "starter". */
export function readPartName(words: readonly string[], from: number): readonly Reading<string>[] {
  const at = words[from] === "part" ? from + 1 : from;
  const word = words[at] ?? "";
  const named = at > from ? word !== "" : /^([a-z]\d?|\d[a-z]|starter|water)$/.test(word);
  return named ? [{ value: word, next: at + 1 }] : [];
}
