import type { Reading } from "../reader.ts";
import { readBelowHundred, small } from "./cardinal.ts";

/**
 * Hundreds as people say them without the word: "six fifty" is 650, "one twenty" 120, "one oh two"
 * 102. Only for slots that ask for it. Common usage, no source.
 */
export function readSpokenHundreds(
  words: readonly string[],
  from: number,
): readonly Reading<number>[] {
  const hundreds = small.get(words[from] ?? "");
  if (hundreds === undefined || hundreds < 1 || hundreds > 9) return [];
  if (words[from + 1] === "oh") {
    const one = small.get(words[from + 2] ?? "");
    const single = one !== undefined && one >= 1 && one <= 9;
    return single ? [{ value: hundreds * 100 + one, next: from + 3 }] : [];
  }
  const rest = readBelowHundred(words, from + 1);
  if (rest === undefined || rest.value < 10) return [];
  return [{ value: hundreds * 100 + rest.value, next: rest.next }];
}
