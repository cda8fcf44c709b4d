import { err, ok, type Result } from "../result.ts";
import { type Millilitres, millilitres } from "../units/quantity.ts";
import { showVolume } from "../units/show.ts";
import { type Amount, scaleAmount, volume } from "./amount.ts";
import { checkWanted, explainWanted, MOST, type WantedError } from "./wanted.ts";

export type Ingredient = { readonly name: string; readonly amount: Amount };

/** A scratch formula; ingredients in the order they go in. */
export type Formula<I extends Ingredient = Ingredient> = {
  /** The finished volume the amounts are for, mL. */
  readonly total: Millilitres;
  /** Water to begin with, mL; missing when the source does not say. */
  readonly startWater?: Millilitres | undefined;
  readonly ingredients: readonly I[];
};

export type FormulaError =
  | WantedError
  | {
      readonly kind: "overfull";
      readonly total: Millilitres;
      readonly startWater: Millilitres;
      readonly liquids: Millilitres;
      readonly by: Millilitres;
    };

const liquidsOf = (formula: Formula): number =>
  formula.ingredients.reduce(
    (sum, { amount }) => (amount.kind === "volume" ? sum + amount.ml : sum),
    0,
  );

/**
 * Scales a scratch formula to any volume. The last step is always "water to the mark", whatever
 * room the dry ingredients take.
 *
 * @param formula  amounts in g or mL for `formula.total` mL
 * @param wanted   mL, above 0
 * @param most     largest volume taken for meant, mL
 * @returns the formula for `wanted`, unrounded; whatever else an ingredient carries is kept
 */
export function scaleFormula<I extends Ingredient>(
  formula: Formula<I>,
  wanted: Millilitres,
  most: Millilitres = millilitres(MOST),
): Result<Formula<I>, FormulaError> {
  const wrong = checkWanted(volume(wanted), most);
  if (wrong) return err(wrong);
  const by = wanted / formula.total;
  const startWater =
    formula.startWater === undefined ? undefined : millilitres(formula.startWater * by);
  const ingredients = formula.ingredients.map((ingredient) => ({
    ...ingredient,
    amount: scaleAmount(ingredient.amount, by),
  }));
  const liquids = millilitres(liquidsOf(formula) * by);
  const over = (startWater ?? 0) + liquids - wanted;
  if (over > 1e-9 * wanted) {
    return err({
      kind: "overfull",
      total: wanted,
      startWater: startWater ?? millilitres(0),
      liquids,
      by: millilitres(over),
    });
  }
  return ok({ total: wanted, startWater, ingredients });
}

/** What was read and what to give instead, in one sentence. */
export function explainFormula(error: FormulaError): string {
  if (error.kind !== "overfull") return explainWanted(error);
  return `${showVolume(error.startWater)} of start water and ${showVolume(error.liquids)} of liquids come to ${showVolume(error.by)} more than the ${showVolume(error.total)} mark: check the formula's figures.`;
}
