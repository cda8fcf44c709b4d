import type { Listening, Reading, SlotReader } from "../reader.ts";
import { toWords } from "../words.ts";
import { byLength, phrases } from "./phrases.ts";

type Kind = keyof Listening["names"];

const nouns: Readonly<Record<Kind, ReadonlySet<string>>> = {
  bottle: new Set(["bottle", "bottles", "jar", "jug", "flask"]),
  sheet: new Set(["sheet", "instructions", "paper"]),
  tank: new Set(["tank", "drum"]),
};
const openings: ReadonlySet<string> = new Set(["the", "my", "our"]);

type Names = ReturnType<typeof phrases<string>>;
/** The phrases of a map are made once; a map that has grown is looked at again. */
const made = new WeakMap<ReadonlyMap<string, string>, { size: number; read: Names }>();

function namesOf(map: ReadonlyMap<string, string>): Names {
  const known = made.get(map);
  if (known !== undefined && known.size === map.size) return known.read;
  const read = phrases([...map].map(([name, id]) => [id, toWords(name).words.join(" ")] as const));
  made.set(map, { size: map.size, read });
  return read;
}

/**
 * A slot for a name the bench knows; the value is its id. "the", and the noun before or behind the
 * name, may be said: "the bottle dora", "tank north", "north tank".
 */
export const nameReader =
  (kind: Kind): SlotReader<string> =>
  (words, from, listening): readonly Reading<string>[] => {
    const read = namesOf(listening.names[kind]);
    const article = openings.has(words[from] ?? "") ? from + 1 : from;
    const noun = nouns[kind].has(words[article] ?? "") ? article + 1 : article;
    const starts = [...new Set([from, article, noun])];
    return byLength(
      starts.flatMap((start) =>
        read(words, start).flatMap(({ value, next }) =>
          nouns[kind].has(words[next] ?? "")
            ? [
                { value, next: next + 1 },
                { value, next },
              ]
            : [{ value, next }],
        ),
      ),
    );
  };
