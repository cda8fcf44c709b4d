import type { Reading } from "../reader.ts";
import type { FilmFormat } from "./film.ts";
import { byLength, phrases } from "./phrases.ts";

/** Common usage, no source. */
const readName = phrases<FilmFormat>([
  ["135-36", "135-36, 135/36, 35mm-36"],
  ["135-24", "135-24, 135/24, 35mm-24"],
  ["135-12", "135-12, 135/12, 35mm-12"],
  [
    "135",
    "135, 135s, 135 s, 35 mm, 35mm, one thirty five, a hundred and thirty five, thirty five mm",
  ],
  ["135", "thirty five mil, thirty five millimetre, thirty five millimeter, 35 millimetre"],
  ["135", "35 mil, 35 millimeter, one three five, one hundred and thirty five"],
  [
    "120",
    "120, 120s, 120 s, one twenty, a hundred and twenty, one hundred and twenty, one two zero",
  ],
  ["220", "220, 220s, 220 s, two twenty, two hundred and twenty, two two zero"],
  ["4x5", "4x5, 4x5s, 5x4, 4 x 5, 4 by 5, four by five, four x five, 4x5in, four by fives"],
  ["5x7", "5x7, 5x7s, 7x5, 5 x 7, 5 by 7, five by seven, five x seven, 5x7in"],
  ["8x10", "8x10, 8x10s, 10x8, 8 x 10, 8 by 10, eight by ten, eight x ten, 8x10in"],
]);

const readLength = phrases<36 | 24 | 12>([
  [36, "36, thirty six"],
  [24, "24, twenty four"],
  [12, "12, twelve"],
]);
const readExposures = phrases<true>([
  [true, "exposure, exposures, exp, exps, exposure roll, exposure rolls, shots, frames"],
]);

/**
 * A format by name, with the exposures of a 135 film before or behind it. `lengthAlone` also takes
 * the number by itself: "a roll of 36".
 */
export function readFormat(
  words: readonly string[],
  from: number,
  lengthAlone = false,
): readonly Reading<FilmFormat>[] {
  const names = readName(words, from).flatMap(({ value, next }): readonly Reading<FilmFormat>[] => {
    const plain = { value, next };
    if (value !== "135") return [plain];
    const of = words[next] === "of" ? next + 1 : next;
    return [
      ...readLength(words, of).map((length) => ({
        value: `135-${length.value}` as const,
        next: readExposures(words, length.next)[0]?.next ?? length.next,
      })),
      plain,
    ];
  });
  const lengths = readLength(words, from).flatMap((length): readonly Reading<FilmFormat>[] => {
    const exposures = readExposures(words, length.next)[0];
    if (exposures === undefined && !lengthAlone) return [];
    const value = `135-${length.value}` as const;
    const end = exposures?.next ?? length.next;
    const name = readName(words, end)[0];
    const named = name?.value === "135" ? [{ value, next: name.next }] : [];
    return [...named, { value, next: end }];
  });
  return byLength([...names, ...lengths]);
}
