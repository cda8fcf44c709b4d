import { formulas } from "../../data/formulas.ts";
import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import { byLength } from "./phrases.ts";

/** A name like "D-76" as its letters and its number, and the id it stands for. */
type Spoken = { readonly letters: string; readonly number: number; readonly id: string };

const spoken: readonly Spoken[] = formulas.flatMap(({ id, name, aliases }) =>
  [...new Set([name, ...aliases].map((called) => called.toLowerCase().replace("-", "")))].flatMap(
    (called) => {
      const parts = /^([a-z]+)(\d+)$/.exec(called);
      return parts === null ? [] : [{ letters: parts[1] ?? "", number: Number(parts[2]), id }];
    },
  ),
);

/**
 * The slot `{formula}`: a published formula by its trade name, the value is its id. Typed with or
 * without the hyphen, or spoken: "d seventy six", "s b eight".
 */
export const readFormula = (words: readonly string[], from: number): readonly Reading<string>[] =>
  byLength(
    spoken.flatMap(({ letters, number, id }) => [
      ...written(words, from, letters, number).map((next) => ({ value: id, next })),
      ...[from + 1, from + letters.length]
        .filter((next) => words.slice(from, next).join("") === letters)
        .flatMap((next) => readNumber(words, next).filter(({ value }) => value === number))
        .map(({ next }) => ({ value: id, next })),
    ]),
  );

const written = (
  words: readonly string[],
  from: number,
  letters: string,
  number: number,
): readonly number[] =>
  words[from] === `${letters}${number}` || words[from] === `${letters}-${number}` ? [from + 1] : [];
