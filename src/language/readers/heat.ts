import type { Degrees } from "../../domain/units/conversions.ts";
import type { Reading } from "../reader.ts";
import { readScaleBehind } from "./degrees.ts";
import { readNumber } from "./number.ts";
import { byLength } from "./phrases.ts";
import { readTemperatureNumbers } from "./temperature.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** A temperature as it was said: the scale is missing where nobody named one. */
export type SaidHeat = { readonly degrees: number; readonly scale?: Degrees };

/**
 * The slot `{heat}`: a temperature whose scale is left to the command, for sentences with several
 * of them. "From 60 and 15" means one scale for both, which each number alone would not tell.
 */
export const readHeat = (
  words: readonly string[],
  from: number,
): readonly Reading<SaidHeat | Unreadable>[] =>
  byLength(
    [...readTemperatureNumbers(words, from), ...readHalf(words, from)].flatMap((number) =>
      readScaleBehind(words, number.next).map(({ value: scale, next }) => ({
        value: isUnreadable(number.value)
          ? unreadable(words, from, next)
          : scale === undefined
            ? { degrees: number.value }
            : { degrees: number.value, scale },
        next,
      })),
    ),
  );

/** "half a degree" is as much as a thermometer is off by. Common usage, no source. */
const readHalf = (words: readonly string[], from: number) =>
  words[from] === "half" ? readNumber(words, from) : [];
