import { areaFromCm2 } from "../../domain/units/conversions.ts";
import { squareInches } from "../../domain/units/quantity.ts";
import type { Reading } from "../reader.ts";
import { readMeasured } from "./measured.ts";
import { phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

export type AreaUnit = "in2" | "cm2";

/** The slot `{areaUnit}`. Common usage, no source. */
export const readAreaUnit = phrases<AreaUnit>([
  ["in2", "sq in, sq inch, sq inches, square in, square inch, square inches, in2, inches squared"],
  ["cm2", "sq cm, square cm, cm2, square centimetre, square centimetres, square centimeter"],
  ["cm2", "square centimeters, centimetres squared, centimeters squared"],
]);

/** The slot `{area}`, in square inches: "80 sq in", "500 square centimetres". */
export const readArea = (
  words: readonly string[],
  from: number,
): readonly Reading<number | Unreadable>[] =>
  readMeasured(words, from, readAreaUnit).map(({ value: { amount, unit }, next }) => ({
    value:
      isUnreadable(amount) || !Number.isFinite(amount * 10)
        ? unreadable(words, from, next)
        : unit === "in2"
          ? squareInches(amount)
          : areaFromCm2(amount),
    next,
  }));
