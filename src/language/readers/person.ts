import type { Reading } from "../reader.ts";
import { readText } from "./free-text.ts";

/** Words that go on with what is told of a bottle and are no second name. */
const goesOn: ReadonlySet<string> = new Set(
  "mixed made opened today yesterday last this with from for at in on called named as half full nearly almost mostly some less three a an is kept stored standing concentrate stock working and".split(
    " ",
  ),
);

/** The slot `{person}`: a name of two words or one: "Ana Maria", and "Ana" in "Ana half full". */
export function readPerson(words: readonly string[], from: number): readonly Reading<string>[] {
  const second = words[from + 1] ?? "";
  const most = goesOn.has(second) || /^\d/.test(second) ? 1 : 2;
  return readText(words.slice(0, from + most), from);
}
