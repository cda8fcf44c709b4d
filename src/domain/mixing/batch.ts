import { err, ok, type Result } from "../result.ts";
import { type Millilitres, millilitres } from "../units/quantity.ts";
import { showVolume } from "../units/show.ts";
import { type Amount, scaleAmount, volume } from "./amount.ts";
import { checkWanted, explainWanted, MOST, type WantedError } from "./wanted.ts";

/** One part of a kit or sheet. Without an amount it is "the whole part as supplied". */
export type Part = {
  readonly name: string;
  readonly form: "liquid" | "powder";
  readonly amount?: Amount | undefined;
};

/** A bath as its sheet prints it; parts in the order they go in. */
export type BatchRecipe = {
  readonly total: Millilitres;
  readonly startWater: Millilitres;
  readonly parts: readonly Part[];
};

/** Something the arithmetic leaves open and the person should hear. */
export type BatchCaution =
  | { readonly kind: "powder-volume-ignored"; readonly parts: readonly string[] }
  | { readonly kind: "liquid-volume-unknown"; readonly parts: readonly string[] }
  | { readonly kind: "powder-split-anyway"; readonly parts: readonly string[] };

export type Batch = BatchRecipe & {
  /**
   * Water from there to the mark, mL: total less start water less liquid parts. A powder's own
   * volume is not counted. Missing when a liquid part's volume is not known: fill to the mark.
   */
  readonly topUp: Millilitres | undefined;
  /** How many times the recipe: 1 is the batch as printed. */
  readonly scale: number;
  readonly cautions: readonly BatchCaution[];
};

export type BatchError =
  | WantedError
  | {
      readonly kind: "overfull";
      readonly total: Millilitres;
      readonly startWater: Millilitres;
      readonly liquids: Millilitres;
      readonly by: Millilitres;
    }
  | { readonly kind: "no-total"; readonly whole: Millilitres }
  | {
      readonly kind: "powder-split";
      readonly parts: readonly string[];
      readonly wanted: Millilitres;
      readonly whole: Millilitres;
    }
  | {
      readonly kind: "amount-unknown";
      readonly parts: readonly string[];
      readonly wanted: Millilitres;
      readonly whole: Millilitres;
    };

/** A quart said as 946 mL is still the whole package: 0.1 % (our own figure, no source). */
const WHOLE_WITHIN = 0.001;
const isWhole = (scale: number): boolean => {
  const packages = Math.round(scale);
  return packages >= 1 && Math.abs(scale - packages) <= WHOLE_WITHIN * packages;
};

/** A batch is not made so many times over: the printed total is then none. */
const MOST_TIMES = 1e9;

/** Rounding noise of scaling, never a drop in a graduate. */
const NOISE = 1e-9;

const namesOf = (parts: readonly Part[]): readonly string[] => parts.map((part) => part.name);

/**
 * Scales a bath's recipe to a wanted volume: start water, each part in order, top up to the mark.
 *
 * A powder is not split, because what is in a package separates on the way and only the whole of
 * it has the right mixture (US Navy, Photography (Basic), chapter on chemicals; read in excerpt). A maker's
 * order of start water, concentrates, water to volume: TI2443, Single-Use Chemistry Kit, Process
 * E-6 (read).
 *
 * @param recipe          the bath as printed, mL and g
 * @param wanted          volume to make, mL, above 0
 * @param options.insist  split powders all the same; the result then carries a caution
 * @param options.most    largest volume taken for meant, mL
 * @returns all amounts unrounded; start water + liquid parts + top-up = wanted
 */
export function scaleBatch(
  recipe: BatchRecipe,
  wanted: Millilitres,
  options: { readonly insist?: boolean; readonly most?: Millilitres } = {},
): Result<Batch, BatchError> {
  const wrong = checkWanted(volume(wanted), options.most ?? MOST);
  if (wrong) return err(wrong);

  const scale = wanted / recipe.total;
  if (!(scale > 0 && scale < MOST_TIMES)) return err({ kind: "no-total", whole: recipe.total });
  const powders = recipe.parts.filter((part) => part.form === "powder");
  const splits = !isWhole(scale);
  if (splits && powders.length > 0 && options.insist !== true) {
    return err({ kind: "powder-split", parts: namesOf(powders), wanted, whole: recipe.total });
  }
  const unmeasured = recipe.parts.filter((part) => part.amount === undefined);
  if (splits && unmeasured.length > 0) {
    return err({ kind: "amount-unknown", parts: namesOf(unmeasured), wanted, whole: recipe.total });
  }

  const startWater = millilitres(recipe.startWater * scale);
  const parts = recipe.parts.map(
    (part): Part =>
      part.amount === undefined ? part : { ...part, amount: scaleAmount(part.amount, scale) },
  );
  const liquids = liquidVolume(parts);
  const room = wanted - startWater - liquids;
  if (room < -NOISE * wanted) {
    return err({ kind: "overfull", total: wanted, startWater, liquids, by: millilitres(-room) });
  }

  const unpoured = parts.filter((part) => part.form === "liquid" && part.amount?.kind !== "volume");
  const topUp = unpoured.length > 0 ? undefined : millilitres(Math.max(0, room));
  const cautions: BatchCaution[] = [];
  if (powders.length > 0) {
    cautions.push({ kind: "powder-volume-ignored", parts: namesOf(powders) });
  }
  if (unpoured.length > 0) {
    cautions.push({ kind: "liquid-volume-unknown", parts: namesOf(unpoured) });
  }
  if (splits && powders.length > 0) {
    cautions.push({ kind: "powder-split-anyway", parts: namesOf(powders) });
  }
  return ok({ total: wanted, startWater, parts, topUp, scale, cautions });
}

const liquidVolume = (parts: readonly Part[]): Millilitres =>
  millilitres(
    parts.reduce(
      (sum, { form, amount }) =>
        form === "liquid" && amount?.kind === "volume" ? sum + amount.ml : sum,
      0,
    ),
  );

/** What was read and what to give instead, in one sentence. */
export function explainBatch(error: BatchError): string {
  switch (error.kind) {
    case "overfull": {
      const { total, startWater, liquids, by } = error;
      const sum = `${showVolume(startWater)} of start water and ${showVolume(liquids)} of parts come to ${showVolume(by)} more than the ${showVolume(total)} mark`;
      return by <= startWater
        ? `${sum}: start with ${showVolume(millilitres(startWater - by))} of water or less.`
        : `${sum}: check the figures, the parts alone do not fit.`;
    }
    case "no-total":
      return `The sheet's batch comes to ${showVolume(error.whole)}, which no batch does: correct its total.`;
    case "powder-split":
      return `${showVolume(error.wanted)} would split ${error.parts.join(", ")}, and what is in a powder package separates in transport: mix the whole ${showVolume(error.whole)}, or say that you insist.`;
    case "amount-unknown":
      return `${showVolume(error.wanted)} needs a measured share of ${error.parts.join(", ")}, and I do not know how much that is: give its amount, or mix the whole ${showVolume(error.whole)}.`;
    default:
      return explainWanted(error);
  }
}

/** What the arithmetic left open, in one sentence. */
export function explainBatchCaution(caution: BatchCaution): string {
  const parts = caution.parts.join(", ");
  switch (caution.kind) {
    case "powder-volume-ignored":
      return `The room ${parts} takes up is not counted: fill to the mark, whatever the top-up says.`;
    case "liquid-volume-unknown":
      return `I do not know the volume of ${parts}: fill to the mark.`;
    case "powder-split-anyway":
      return `You split ${parts} against advice: what is in a powder package separates in transport, so this batch may be off.`;
  }
}
