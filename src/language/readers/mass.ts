import { type MassUnit, massIn } from "../../domain/units/conversions.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { type Measured, readMeasured, readRow } from "./measured.ts";
import { bareNumber } from "./number.ts";
import { orBare, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** Grams. */
export type MassValue = number | Unsettled<number> | Unreadable;

/** The slot `{massUnit}`. Common usage, no source. "Ounce" is avoirdupois where a mass is wanted. */
export const readMassUnit = phrases<MassUnit>([
  ["g", "g, gr, gm, gms, gram, grams, gramme, grammes"],
  ["kg", "kg, kgs, kilo, kilos, kilogram, kilograms"],
  ["mg", "mg, milligram, milligrams"],
  ["oz", "oz, ozs, ounce, ounces, weight ounce, weight ounces, ounces by weight, oz by weight"],
  ["oz", "avoirdupois ounce, avoirdupois ounces, ounce avoirdupois, ounces avoirdupois"],
  ["lb", "lb, lbs, pound, pounds"],
  ["grain", "grain, grains"],
]);

const readOne = (words: readonly string[], from: number) => readMeasured(words, from, readMassUnit);

/** A mass whose unit was said: "12.5 g", "half an ounce", "1 lb 4 oz". */
export const readMassWithUnit = (
  words: readonly string[],
  from: number,
): readonly Reading<number | Unreadable>[] =>
  readRow(words, from, readOne, (upper, lower) => massIn(1, lower) < massIn(1, upper)).map(
    ({ value, next }) => ({ value: total(value) ?? unreadable(words, from, next), next }),
  );

/** The slot `{mass}`: as above, or a bare number, which asks for its unit. */
export const readMass = (
  words: readonly string[],
  from: number,
  _listening: Listening,
): readonly Reading<MassValue>[] =>
  orBare<MassValue>(readMassWithUnit(words, from), () =>
    bareNumber(words, from).map(({ value, next }) => ({
      value: isUnreadable(value) ? value : askUnit(value, words, from, next),
      next,
    })),
  );

function total(parts: readonly Measured<MassUnit>[]): number | undefined {
  let sum = 0;
  for (const { amount, unit } of parts) {
    if (isUnreadable(amount) || !Number.isFinite(amount * 1000)) return undefined;
    sum += massIn(amount, unit);
  }
  return sum;
}

function askUnit(amount: number, words: readonly string[], from: number, next: number): MassValue {
  if (!Number.isFinite(amount * 1000)) return unreadable(words, from, next);
  return {
    unsettled: "mass-unit",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "grams", value: amount },
      { word: "ounces", value: massIn(amount, "oz") },
      { word: "grains", value: massIn(amount, "grain") },
    ],
  };
}
