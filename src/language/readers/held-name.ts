import type { Reading, SlotReader } from "../reader.ts";
import { nameReader } from "./names.ts";

const readBottle = nameReader("bottle");

/** Words that are said at the sink and are no bottle's name. */
const otherWords: ReadonlySet<string> = new Set(
  "undo left again help why in out next wait hold ready yes no stop time status trouble bottles light dark summary clear skip cancel".split(
    " ",
  ),
);

/**
 * The slot `{held}`: the name read off the bottle in hand. A known one is its id; one or two other
 * words are a name I do not know, put in quotes so that it can be no id.
 */
export const readHeld: SlotReader<string> = (
  words,
  from,
  listening,
): readonly Reading<string>[] => {
  const known = readBottle(words, from, listening);
  if (known.length > 0) return known;
  const rest = words.slice(from);
  if (rest.length === 0 || rest.length > 2 || rest.some((word) => otherWords.has(word))) return [];
  return [{ value: `"${rest.join(" ")}"`, next: words.length }];
};
