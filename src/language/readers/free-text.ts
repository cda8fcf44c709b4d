import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";

/** The slot `{word}`: one word, whatever it is. */
export const readWord = (words: readonly string[], from: number): readonly Reading<string>[] => {
  const word = words[from];
  return word === undefined ? [] : [{ value: word, next: from + 1 }];
};

/** The slot `{text}`: everything that is left, then everything but the last word, and so on. */
export function readText(words: readonly string[], from: number): readonly Reading<string>[] {
  const readings: Reading<string>[] = [];
  let value = "";
  for (let at = from; at < words.length; at += 1) {
    value = value === "" ? (words[at] ?? "") : `${value} ${words[at] ?? ""}`;
    readings.push({ value, next: at + 1 });
  }
  return readings.reverse();
}

/** Words that go on with the sentence behind a name and are no part of it. */
const goesOn: ReadonlySet<string> = new Set(
  "mixed made opened pushed pulled today yesterday with from for at in on by to using of and is holds please now then just".split(
    " ",
  ),
);

/**
 * The slot `{newName}`: a name to be given, two words or one. "Rocket" in "rocket mixed today" and
 * "rocket 1 litre" is one; a number is a second word only at the end: "tank north two".
 */
export function readNewName(words: readonly string[], from: number): readonly Reading<string>[] {
  const second = words[from + 1] ?? "";
  const counts = from + 2 < words.length && readNumber(words, from + 1).length > 0;
  const most = goesOn.has(second) || counts ? 1 : 2;
  return readText(words.slice(0, from + most), from);
}

const tankWords: ReadonlySet<string> = new Set(["tank", "drum"]);

/** The slot `{newTank}`: the same, with "tank" before or behind left out of the name. */
export function readNewTank(words: readonly string[], from: number): readonly Reading<string>[] {
  const the = words[from] === "the" || words[from] === "my" ? from + 1 : from;
  // Behind "tank", and all alone, the other noun is a name: "tank drum".
  const named = words[the] !== "tank" && (words[from - 1] === "tank" || words.length === the + 1);
  const start = !named && tankWords.has(words[the] ?? "") ? the + 1 : the;
  const readings = readNewName(words, start).flatMap(({ value, next }) => {
    if (tankWords.has(words[next - 1] ?? "") && !(named && next === start + 1)) return [];
    return tankWords.has(words[next] ?? "")
      ? [
          { value, next: next + 1 },
          { value, next },
        ]
      : [{ value, next }];
  });
  return readings.sort((a, b) => b.next - a.next);
}
