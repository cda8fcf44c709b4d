import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import { phrases } from "./phrases.ts";

/** The sides of a sheet, in. */
export type FilmSize = { readonly wide: number; readonly high: number };

const CM_PER_IN = 2.54;

const readUnit = phrases<number>([
  [1 / CM_PER_IN, "cm, centimetre, centimetres, centimeter, centimeters"],
  [1, 'in, inch, inches, "'],
]);

/**
 * A sheet of a size that has no name: "9x12 cm", "9 by 12 centimetres", "5 x 8 inches". Its unit
 * must be said, since both inches and centimetres are usual.
 */
export function readFilmSize(words: readonly string[], from: number): readonly Reading<FilmSize>[] {
  const written = /^(\d{1,2}(?:\.\d+)?)x(\d{1,2}(?:\.\d+)?)$/.exec(words[from] ?? "");
  if (written !== null) {
    return withUnit(words, from + 1, Number(written[1]), Number(written[2]));
  }
  return readNumber(words, from).flatMap((one) => {
    if (typeof one.value !== "number" || !["x", "by"].includes(words[one.next] ?? "")) return [];
    const wide = one.value;
    return readNumber(words, one.next + 1).flatMap((other) =>
      typeof other.value === "number" ? withUnit(words, other.next, wide, other.value) : [],
    );
  });
}

const withUnit = (
  words: readonly string[],
  from: number,
  wide: number,
  high: number,
): readonly Reading<FilmSize>[] =>
  readUnit(words, from).map(({ value: inches, next }) => ({
    value: { wide: wide * inches, high: high * inches },
    next,
  }));
