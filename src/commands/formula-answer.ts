import type { FormulaIngredient, PublishedFormula } from "../data/formulas.ts";
import type { Amount } from "../domain/mixing/amount.ts";
import {
  type Basis,
  basisVolume,
  equivalentFormula,
  IMPERIAL_BASIS,
  literalFormula,
  US_BASIS,
  type UsMeasure,
} from "../domain/mixing/us-formula.ts";
import { showOrigin } from "../domain/origin.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Country, massIn } from "../domain/units/conversions.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { plain, showMass, showOunces, showTemperature, showVolume } from "../domain/units/show.ts";
import type { Json } from "../reply/reply.ts";
import { cautionsFor } from "./cautions.ts";

/** One ingredient of a scaled formula, with its two conversions where ounces are wanted. */
export type Row = FormulaIngredient & {
  readonly literal?: UsMeasure;
  readonly equivalent?: UsMeasure;
};

/** The scaled formula's rows; with a country also in ounces, both ways. */
export function rowsOf(scaled: PublishedFormula, country: Country | undefined): readonly Row[] {
  if (country === undefined) return scaled.ingredients;
  const literal = literalFormula(scaled, country);
  const equivalent = equivalentFormula(scaled, basisOf(country));
  return scaled.ingredients.map((ingredient, index) => {
    const first = literal.ingredients[index]?.literal;
    const second = equivalent.ingredients[index]?.equivalent;
    if (first === undefined || second === undefined)
      throw new Error("a conversion lost an ingredient");
    return { ...ingredient, literal: first, equivalent: second };
  });
}

export const basisOf = (country: Country): Basis => (country === "us" ? US_BASIS : IMPERIAL_BASIS);
export const showBasis = ({ fluidOunces, country }: Basis): string =>
  `${fluidOunces} ${ouncesOf(country)}`;
const ouncesOf = (country: Country): string => (country === "us" ? "US fl oz" : "Imp fl oz");

const grainsShown = (grains: number): string =>
  `${plain(grains, 1)} grains${grains < 437.5 ? "" : ` = ${showOunces(massIn(grains, "grain"))}`}`;
const measureShown = (measure: UsMeasure, country: Country): string =>
  measure.kind === "volume"
    ? `${plain(measure.fluidOunces, 2)} ${ouncesOf(country)}`
    : grainsShown(measure.grains);

const metric = (amount: Amount): string =>
  amount.kind === "volume" ? showVolume(amount.ml) : showMass(amount.g);

export function formulaLines(
  scaled: PublishedFormula,
  rows: readonly Row[],
  country: Country | undefined,
): readonly string[] {
  const warm =
    scaled.startTemperature === undefined ? "" : ` at ${showTemperature(scaled.startTemperature)}`;
  return [
    scaled.startWater === undefined
      ? "start water: not recorded; begin with most of it"
      : `start water  ${showVolume(scaled.startWater)}${warm}`,
    ...rows.map(({ name, amount, literal }) => {
      const also =
        country === undefined || literal === undefined
          ? ""
          : ` = ${measureShown(literal, country)}`;
      return `${name}  ${metric(amount)}${also}`;
    }),
    `water TO the ${showVolume(scaled.total)} mark; each clear before the next`,
    ...(country === undefined ? [] : equivalentLines(scaled, rows, country)),
  ];
}

/**
 * The other volume's weights, apart from these: side by side, one of theirs would be weighed into
 * this mark. None where the volume is the same.
 */
function equivalentLines(
  scaled: PublishedFormula,
  rows: readonly Row[],
  country: Country,
): readonly string[] {
  const basis = basisOf(country);
  if (Math.abs(scaled.total / basisVolume(basis) - 1) < 0.001) return [];
  const weights = rows.flatMap(({ name, equivalent }) =>
    equivalent === undefined ? [] : `${name} ${measureShown(equivalent, country)}`,
  );
  return [
    `Not for this mark but for ${showBasis(basis)}, formula-equivalent: ${weights.join("; ")}. Keep to one volume.`,
  ];
}

const measureJson = (measure: UsMeasure | undefined, prefix: string): Record<string, Json> => {
  if (measure === undefined) return {};
  return measure.kind === "volume"
    ? { [`${prefix}fl_oz`]: measure.fluidOunces }
    : { [`${prefix}grains`]: measure.grains };
};

export const rowsJson = (rows: readonly Row[]): readonly Json[] =>
  rows.map(({ name, amount, literal, equivalent }) => ({
    name,
    ...(amount.kind === "volume" ? { ml: amount.ml } : { g: amount.g }),
    ...measureJson(literal, ""),
    ...measureJson(equivalent, "equivalent_"),
  }));

/** Which kind of a salt is meant; another one in the jar weighs otherwise. */
export function hydrateNote(rows: readonly Row[]): readonly string[] {
  const kinds = rows.map(({ name }) => name).filter((name) => /(hydrate|anhydrous)$/.test(name));
  return kinds.length === 0
    ? []
    : [`Meant exactly: ${kinds.join("; ")}. Another kind in the jar weighs otherwise: say swap.`];
}

export function formulaCautions(
  scaled: PublishedFormula,
  bench: Bench,
  now: Instant,
): readonly string[] {
  const { name, origin, startOrigin, ingredients } = scaled;
  const acid = ingredients.some((one) => one.name.startsWith("acetic acid"));
  const dry = ingredients.some(({ amount }) => amount.kind === "mass");
  const kinds = [...(dry ? ["powder"] : []), scaled.bath, ...(acid ? ["stop"] : [])];
  return [
    ...(origin.kind === "from memory"
      ? [`${name} is from memory, not read: check it against a book before you weigh.`]
      : startOrigin?.kind === "from memory"
        ? ["The start water and its temperature are from memory, not read."]
        : []),
    ...scaled.notes,
    ...cautionsFor(bench, kinds, "mix", now).cautions,
  ];
}

export const formulaWorking = (
  printed: PublishedFormula,
  scaled: PublishedFormula,
  country: Country | undefined,
): readonly string[] => [
  `${printed.name} is written for ${plain(printed.total, 2)} mL (${showOrigin(printed.origin)}).`,
  `Scale: ${plain(scaled.total, 2)} / ${plain(printed.total, 2)} = ${plain(scaled.total / printed.total, 4)}; every amount times that.`,
  ...(printed.startOrigin === undefined
    ? []
    : [`Start water: ${showOrigin(printed.startOrigin)}.`]),
  ...(country === undefined
    ? []
    : [
        "Literal: grams over 0.06479891 are grains; mL over the fluid ounce of the country.",
        `Formula-equivalent: the amounts per litre scaled to ${showBasis(basisOf(country))}, then measured${country === "us" ? " (The Darkroom Cookbook, 3rd ed., p. 326: g/L × 14.6 are grains)" : ""}.`,
      ]),
];
