import type { Reading, SlotReader } from "../reader.ts";
import { readBath } from "./bath.ts";
import { nameReader } from "./names.ts";
import { byLength } from "./phrases.ts";

const readBottle = nameReader("bottle");

/** The slot `{inJug}`: what a jug holds, a bath or the bottle it came from; the id of a bottle. */
export const readInJug: SlotReader<string> = (
  words,
  from,
  listening,
): readonly Reading<string>[] => {
  const start = words[from] === "from" ? from + 1 : from;
  const baths = readBath(words, start);
  // "The blix from Banjo": the bottle tells more than its bath.
  const both = baths.flatMap(({ next }) =>
    words[next] === "from" || words[next] === "of" ? readBottle(words, next + 1, listening) : [],
  );
  return byLength<string>([...both, ...baths, ...readBottle(words, start, listening)]);
};
