import { err, ok, type Result } from "../result.ts";
import { type Amount, type Mass, mass, sizeOf, type Volume, volume } from "./amount.ts";
import { measureOf, type Percent, type PercentKind, showPercent } from "./percent.ts";
import { checkWanted, explainWanted, type WantedError } from "./wanted.ts";

/** w/w is worked in grams, w/v and v/v in mL. Grams become mL only through a density. */
export type AmountFor<K extends PercentKind> = K extends "w/w" ? Mass : Volume;

export type Blend<K extends PercentKind> = {
  readonly a: AmountFor<K>;
  readonly b: AmountFor<K>;
  /** The square's parts, before any total: a takes |target - b|, b takes |a - target|. */
  readonly parts: { readonly a: number; readonly b: number };
};

export type Dilution<K extends PercentKind> = {
  readonly stock: AmountFor<K>;
  /** Water to the total; for w/w in grams. */
  readonly water: AmountFor<K>;
  readonly total: AmountFor<K>;
};

export type BlendError =
  | WantedError
  | { readonly kind: "kinds-differ"; readonly kinds: readonly PercentKind[] }
  | { readonly kind: "wrong-measure"; readonly of: PercentKind; readonly measure: Amount["kind"] }
  | { readonly kind: "same-strength"; readonly strength: Percent }
  | { readonly kind: "no-solute"; readonly strength: Percent }
  | {
      readonly kind: "outside";
      readonly target: Percent;
      readonly weak: Percent;
      readonly strong: Percent;
    };

const amountFor = <K extends PercentKind>(kind: K, size: number): AmountFor<K> =>
  (measureOf(kind) === "mass" ? mass(size) : volume(size)) as AmountFor<K>;

/** One kind of percentage, and a total measured the way that kind needs. */
function checkKinds(strengths: readonly Percent[], amount: Amount): BlendError | undefined {
  const kinds = [...new Set(strengths.map((strength) => strength.kind))];
  const [of] = kinds;
  if (of === undefined || kinds.length > 1) return { kind: "kinds-differ", kinds };
  if (amount.kind !== measureOf(of)) return { kind: "wrong-measure", of, measure: amount.kind };
  return checkWanted(amount);
}

/**
 * Blends two strengths of one thing to a third by the square: each takes parts as far as the
 * target lies from the other. Volumes are taken to add up, which strong acids and alcohols do not
 * quite do: bring the last drops to the mark.
 *
 * @param a, b    the two strengths, either way round; 0 % is water
 * @param target  between the two, or one of them
 * @param total   mL for w/v and v/v, g for w/w; above 0
 * @returns amounts in the unit of `total`, unrounded, adding up to it
 */
export function blend<K extends PercentKind>(
  a: Percent<K>,
  b: Percent<NoInfer<K>>,
  target: Percent<NoInfer<K>>,
  total: AmountFor<K>,
): Result<Blend<K>, BlendError> {
  const wrong = checkKinds([a, b, target], total);
  if (wrong) return err(wrong);
  if (a.value === b.value) return err({ kind: "same-strength", strength: a });
  const [weak, strong] = a.value < b.value ? [a, b] : [b, a];
  if (target.value < weak.value || target.value > strong.value) {
    return err({ kind: "outside", target, weak, strong });
  }
  const parts = { a: Math.abs(target.value - b.value), b: Math.abs(a.value - target.value) };
  const ofA = (sizeOf(total) * parts.a) / (parts.a + parts.b);
  return ok({
    a: amountFor(a.kind, ofA),
    b: amountFor(a.kind, sizeOf(total) - ofA),
    parts,
  });
}

/**
 * Brings a stock down to a target with water, for a wanted total.
 *
 * @param total  mL for w/v and v/v, g for w/w; above 0
 */
export function weaken<K extends PercentKind>(
  stock: Percent<K>,
  target: Percent<NoInfer<K>>,
  total: AmountFor<K>,
): Result<Dilution<K>, BlendError> {
  if (target.value === 0) return err({ kind: "no-solute", strength: target });
  const water: Percent<K> = { kind: stock.kind, value: 0 };
  const mixed = blend(stock, water, target, total);
  return mixed.ok ? ok({ stock: mixed.value.a, water: mixed.value.b, total }) : mixed;
}

/**
 * Brings all of a given amount of stock down to a target with water.
 *
 * @param amount  of stock: mL for w/v and v/v, g for w/w; above 0
 */
export function weakenAll<K extends PercentKind>(
  stock: Percent<K>,
  target: Percent<NoInfer<K>>,
  amount: AmountFor<K>,
): Result<Dilution<K>, BlendError> {
  const wrong = checkKinds([stock, target], amount);
  if (wrong) return err(wrong);
  if (target.value === 0) return err({ kind: "no-solute", strength: target });
  if (target.value > stock.value) {
    return err({ kind: "outside", target, weak: { kind: stock.kind, value: 0 }, strong: stock });
  }
  const total = amountFor(stock.kind, (sizeOf(amount) * stock.value) / target.value);
  const tooMuch = checkWanted(total);
  if (tooMuch) return err(tooMuch);
  const water = amountFor(stock.kind, sizeOf(total) - sizeOf(amount));
  return ok({ stock: amount, water, total });
}

/**
 * The strength two amounts come to together; the forward way, to check a rule of thumb.
 *
 * @param ofA, ofB  mL for w/v and v/v, g for w/w; above 0
 */
export function strengthOf<K extends PercentKind>(
  a: Percent<K>,
  ofA: AmountFor<K>,
  b: Percent<NoInfer<K>>,
  ofB: AmountFor<K>,
): Result<Percent<K>, BlendError> {
  const wrong = checkKinds([a, b], ofA) ?? checkKinds([a, b], ofB);
  if (wrong) return err(wrong);
  const solute = a.value * sizeOf(ofA) + b.value * sizeOf(ofB);
  return ok({ kind: a.kind, value: solute / (sizeOf(ofA) + sizeOf(ofB)) });
}

/** What was read and what to give instead, in one sentence. */
export function explainBlend(error: BlendError): string {
  switch (error.kind) {
    case "kinds-differ":
      return `I read ${error.kinds.join(" and ")} together, and those count different things: give every strength in one kind.`;
    case "wrong-measure":
      return error.measure === "volume"
        ? `${error.of} works by weight: give the amount in grams, or the density to turn it into mL.`
        : `${error.of} works by volume: give the amount in mL.`;
    case "same-strength":
      return `Both are ${showPercent(error.strength)}, and mixing them changes nothing: give two different strengths.`;
    case "no-solute":
      return `I read ${showPercent(error.strength)}, which is plain water: give a target above zero.`;
    case "outside":
      return `${showPercent(error.target)} lies outside ${showPercent(error.weak)} and ${showPercent(error.strong)}: give a target between the two.`;
    default:
      return explainWanted(error);
  }
}
