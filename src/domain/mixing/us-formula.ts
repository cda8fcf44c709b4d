import { type Country, massTo, volumeIn, volumeTo } from "../units/conversions.ts";
import { type Grams, grams, type Millilitres, millilitres } from "../units/quantity.ts";
import { type Amount, scaleAmount } from "./amount.ts";
import type { Formula, Ingredient } from "./scale-formula.ts";

/*
 * A metric formula turns into ounces in two ways that must never be mixed.
 *
 * LITERAL: the same stuff under another name. 500 mL is 500 / 29.5735 = 16.91 US fl oz, and the
 * batch stays a litre, 33.8 US fl oz.
 *
 * FORMULA-EQUIVALENT: the same strength in the volume the old formulas are written for, 32 US
 * fl oz in place of a litre. That is the formula scaled to 32 US fl oz and only then measured. The
 * printed compound factors follow from it:
 *   g/L  -> grains per 32 US fl oz   0.946352946 L / 0.06479891 g   = 14.6045
 *   g/L  -> ounces per 32 US fl oz   0.946352946 L / 28.349523125 g =  0.033382
 *   g/L  -> pounds per 32 US fl oz   0.946352946 L / 453.59237 g    =  0.0020863
 *   mL/L -> fl oz per 32 US fl oz    32 fl oz / 1000 mL             =  0.032
 * (The Darkroom Cookbook, 3rd ed., p. 326 and 329, prints 14.6, 0.03338, 0.002086 and 0.032; read.)
 */

/** Ounces by the book: exact sizes, rounded only when shown. */
export type UsMeasure =
  | { readonly kind: "volume"; readonly fluidOunces: number }
  | { readonly kind: "mass"; readonly grains: number; readonly ounces: number };

/** The volume an ounce formula is written for. */
export type Basis = { readonly fluidOunces: number; readonly country: Country };

/** 32 US fl oz stand for a litre: The Darkroom Cookbook, 3rd ed., p. 326 (read). */
export const US_BASIS: Basis = { fluidOunces: 32, country: "us" };
/** 80 Imperial fl oz, the English two quarts: Kodak Limited (Harrow) formulary, TC-2 (read). */
export const IMPERIAL_BASIS: Basis = { fluidOunces: 80, country: "imperial" };

export type LiteralFormula<I extends Ingredient = Ingredient> = {
  readonly mode: "literal";
  readonly total: Millilitres;
  readonly country: Country;
  readonly ingredients: readonly (I & { readonly literal: UsMeasure })[];
};

export type EquivalentFormula<I extends Ingredient = Ingredient> = {
  readonly mode: "formula-equivalent";
  /** The basis in mL: the batch that is made. */
  readonly total: Millilitres;
  readonly basis: Basis;
  readonly startWaterFluidOunces: number | undefined;
  readonly ingredients: readonly (I & { readonly equivalent: UsMeasure })[];
};

/**
 * LITERAL: one amount in ounces, nothing about it changed.
 *
 * @param amount   g or mL
 * @param country  whose fluid ounce; grains and ounces of weight are the same in both
 */
export const literal = (amount: Amount, country: Country = "us"): UsMeasure =>
  amount.kind === "volume"
    ? { kind: "volume", fluidOunces: volumeTo(amount.ml, "fl oz", country) }
    : { kind: "mass", grains: massTo(amount.g, "grain"), ounces: massTo(amount.g, "oz") };

/**
 * FORMULA-EQUIVALENT: an amount per litre as the amount per basis volume of the same strength.
 *
 * @param perLitre  g or mL in a litre
 * @param basis     32 US fl oz unless said otherwise
 */
export const formulaEquivalent = (perLitre: Amount, basis: Basis = US_BASIS): UsMeasure =>
  literal(scaleAmount(perLitre, basisVolume(basis) / 1000), basis.country);

/** FORMULA-EQUIVALENT backwards: a mass printed per basis volume, g, as grams per litre. */
export const gramsPerLitre = (perBasis: Grams, basis: Basis = US_BASIS): Grams =>
  grams((perBasis * 1000) / basisVolume(basis));

/** FORMULA-EQUIVALENT backwards: fluid ounces printed per basis volume, as mL per litre. */
export const millilitresPerLitre = (fluidOunces: number, basis: Basis = US_BASIS): Millilitres =>
  millilitres((fluidOunces / basis.fluidOunces) * 1000);

/** The basis in mL. */
export const basisVolume = (basis: Basis): Millilitres =>
  volumeIn(basis.fluidOunces, "fl oz", basis.country);

/** LITERAL, for a whole formula: the batch stays the same size. */
export const literalFormula = <I extends Ingredient>(
  formula: Formula<I>,
  country: Country = "us",
): LiteralFormula<I> => ({
  mode: "literal",
  total: formula.total,
  country,
  ingredients: formula.ingredients.map((ingredient) => ({
    ...ingredient,
    literal: literal(ingredient.amount, country),
  })),
});

/** FORMULA-EQUIVALENT, for a whole formula: the batch becomes the basis volume. */
export function equivalentFormula<I extends Ingredient>(
  formula: Formula<I>,
  basis: Basis = US_BASIS,
): EquivalentFormula<I> {
  const toLitre = 1000 / formula.total;
  return {
    mode: "formula-equivalent",
    total: basisVolume(basis),
    basis,
    startWaterFluidOunces:
      formula.startWater === undefined
        ? undefined
        : (formula.startWater / formula.total) * basis.fluidOunces,
    ingredients: formula.ingredients.map((ingredient) => ({
      ...ingredient,
      equivalent: formulaEquivalent(scaleAmount(ingredient.amount, toLitre), basis),
    })),
  };
}
