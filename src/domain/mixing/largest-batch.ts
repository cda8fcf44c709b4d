import { err, ok, type Result } from "../result.ts";
import { type Millilitres, millilitres } from "../units/quantity.ts";
import { type Amount, showAmount, sizeOf } from "./amount.ts";
import type { BatchRecipe } from "./batch.ts";

/** What is left of one part; one entry a part. */
export type PartLeft = { readonly part: string; readonly amount: Amount };

export type LargestBatch = {
  /** The largest volume, mL, unrounded. */
  readonly total: Millilitres;
  /** The part that runs out first. */
  readonly limitedBy: string;
  readonly scale: number;
  /** The largest volume out of whole recipes alone, mL: what a powder allows. 0 if not even one. */
  readonly wholeTotal: Millilitres;
  /** Powders that the larger volume would split. */
  readonly splits: readonly string[];
};

export type LargestBatchError =
  | { readonly kind: "nothing-said"; readonly parts: readonly string[] }
  | {
      readonly kind: "unknown-part";
      readonly part: string;
      readonly parts: readonly string[];
    }
  | { readonly kind: "amount-unknown"; readonly part: string }
  | {
      readonly kind: "wrong-measure";
      readonly part: string;
      readonly left: Amount;
      readonly printed: Amount;
    }
  | { readonly kind: "nothing-left"; readonly part: string; readonly left: Amount };

const sameName = (one: string, other: string): boolean =>
  one.trim().toLowerCase() === other.trim().toLowerCase();

/**
 * The largest volume that can be made from what is left. Parts that are not named are taken to be
 * there in plenty.
 *
 * @param recipe  the bath as printed, mL and g
 * @param left    what is left, in the unit the recipe uses for that part
 */
export function largestBatch(
  recipe: BatchRecipe,
  left: readonly PartLeft[],
): Result<LargestBatch, LargestBatchError> {
  const names = recipe.parts.map((part) => part.name);
  let scale = Number.POSITIVE_INFINITY;
  let limitedBy: string | undefined;
  for (const { part: said, amount } of left) {
    const part = recipe.parts.find((candidate) => sameName(candidate.name, said));
    if (part === undefined) return err({ kind: "unknown-part", part: said, parts: names });
    const printed = part.amount;
    if (printed === undefined) return err({ kind: "amount-unknown", part: part.name });
    if (printed.kind !== amount.kind) {
      return err({ kind: "wrong-measure", part: part.name, left: amount, printed });
    }
    if (sizeOf(amount) <= 0) return err({ kind: "nothing-left", part: part.name, left: amount });
    const allows = sizeOf(amount) / sizeOf(printed);
    if (allows < scale) {
      scale = allows;
      limitedBy = part.name;
    }
  }
  if (limitedBy === undefined) return err({ kind: "nothing-said", parts: names });
  // The hair keeps 3 × 0.1 over 0.1 at three recipes.
  const wholes = Math.floor(scale + 1e-9);
  const powders = recipe.parts.filter((part) => part.form === "powder");
  return ok({
    total: millilitres(scale * recipe.total),
    limitedBy,
    scale,
    wholeTotal: millilitres(wholes * recipe.total),
    splits: scale - wholes > 1e-9 ? powders.map((part) => part.name) : [],
  });
}

/** What was read and what to give instead, in one sentence. */
export function explainLargestBatch(error: LargestBatchError): string {
  switch (error.kind) {
    case "nothing-said":
      return `Tell me how much is left of one part: ${error.parts.join(", ")}.`;
    case "unknown-part":
      return `I read "${error.part.slice(0, 40)}" and the sheet has ${error.parts.join(", ")}: name one of those.`;
    case "amount-unknown":
      return `The sheet does not say how much ${error.part} a batch takes: add its amount first.`;
    case "wrong-measure":
      return `I read ${showAmount(error.left)} of ${error.part} and the sheet counts it as ${showAmount(error.printed)}: give ${error.printed.kind === "mass" ? "its weight" : "its volume"}.`;
    case "nothing-left":
      return `I read ${showAmount(error.left)} of ${error.part}: with none left there is no batch, so give an amount above zero.`;
  }
}
