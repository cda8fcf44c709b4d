import { err, ok, type Result } from "../result.ts";
import { type Grams, grams } from "../units/quantity.ts";
import { plain, showMass } from "../units/show.ts";
import { mass } from "./amount.ts";
import { checkWanted, explainWanted, type WantedError } from "./wanted.ts";

/** A dry chemical with what a swap needs to know of it. */
export type Compound = {
  readonly id: string;
  /** Name with its water: "sodium carbonate, monohydrate". */
  readonly name: string;
  readonly formula: string;
  /** g/mol, of the formula as written. */
  readonly molarMass: number;
  /** The ion or molecule that does the work; only within one family is a swap arithmetic. */
  readonly family: string;
  /** How many of those one formula unit brings. */
  readonly activePerFormulaUnit: number;
  readonly aliases: readonly string[];
};

export type Swap = {
  readonly printed: Compound;
  readonly inJar: Compound;
  /** Grams of what is in the jar for one gram the formula prints. */
  readonly factor: number;
  readonly printedMass: Grams;
  readonly mass: Grams;
};

export type SwapError =
  | WantedError
  | { readonly kind: "different-family"; readonly printed: Compound; readonly inJar: Compound };

const perActive = (compound: Compound): number =>
  compound.molarMass / compound.activePerFormulaUnit;

/**
 * Replaces one hydrate or salt by another of the same active ion, by molar mass: the same number
 * of active ions, so factor = (jar's g/mol per ion) / (formula's g/mol per ion). Printed tables
 * have such factors the wrong way round (The Darkroom Cookbook, 3rd ed., p. 329, the hydroxides;
 * read), so the direction is in the names here and in `saySwap`.
 *
 * Across families nothing follows from molar mass: what is printed for carbonate to metaborate,
 * 1.70, was found by trial, where the molar figure would be 2.22 (same page; read).
 *
 * @param printed      what the formula says
 * @param inJar        what you have
 * @param printedMass  what the formula says of it, g, above 0
 */
export function swap(
  printed: Compound,
  inJar: Compound,
  printedMass: Grams,
): Result<Swap, SwapError> {
  const wrong = checkWanted(mass(printedMass));
  if (wrong) return err(wrong);
  if (printed.family !== inJar.family) return err({ kind: "different-family", printed, inJar });
  const factor = perActive(inJar) / perActive(printed);
  return ok({ printed, inJar, factor, printedMass, mass: grams(printedMass * factor) });
}

/** The swap with its direction in words. */
export const saySwap = (done: Swap): string =>
  `The formula says ${done.printed.name}, you have ${done.inJar.name}: take ${plain(done.factor, 3)} ×, ${showMass(done.mass)} for ${showMass(done.printedMass)}.`;

/** What was read and what to do instead, in one sentence. */
export function explainSwap(error: SwapError): string {
  if (error.kind !== "different-family") return explainWanted(error);
  const { printed, inJar } = error;
  return `${printed.name} works by its ${printed.family} and ${inJar.name} by its ${inJar.family}: no weight of one follows from the other by arithmetic, so use a formula written for ${inJar.name}, or a published trial.`;
}
