import { err, ok, type Result } from "../result.ts";
import { type Grams, grams, type Millilitres, millilitres } from "../units/quantity.ts";
import { plain } from "../units/show.ts";
import { type Amount, mass, volume } from "./amount.ts";
import { checkWanted, explainWanted, type WantedError } from "./wanted.ts";

/**
 * What a percentage counts: `w/v` grams in 100 mL of solution, `v/v` mL in 100 mL of solution,
 * `w/w` grams in 100 g of solution.
 */
export type PercentKind = "w/v" | "v/v" | "w/w";

/** A strength that knows its kind: `Percent<"w/v">` does not pass for `Percent<"v/v">`. */
export type Percent<K extends PercentKind = PercentKind> = {
  readonly kind: K;
  readonly value: number;
};

export type PercentError =
  | WantedError
  | {
      readonly kind: "not-a-strength";
      readonly value: number;
      readonly of: PercentKind;
      readonly most: number;
    }
  | { readonly kind: "no-solute"; readonly of: PercentKind };

/**
 * The strongest that can be meant. Nothing holds more than 100 % of itself by v/v or w/w; by w/v a
 * dense liquid can (strong sulfuric acid, about 180 % w/v; from memory), so 200 guards against
 * slips there.
 */
const strongest: Record<PercentKind, number> = { "w/v": 200, "v/v": 100, "w/w": 100 };

/**
 * A checked strength. 0 % is water.
 *
 * @param value  per cent, 0 to 100; to 200 for w/v
 */
export function percent<K extends PercentKind>(
  value: number,
  kind: K,
): Result<Percent<K>, PercentError> {
  const most = strongest[kind];
  if (!(value >= 0 && value <= most)) return err({ kind: "not-a-strength", value, of: kind, most });
  return ok({ kind, value });
}

/**
 * Dry chemical for a percentage solution, made UP TO the volume: 10 % is 10 g dissolved in less
 * than 100 mL of water and then filled to 100 mL (Subcourse SS0513, Photographic Quality Control,
 * p. 22; read).
 *
 * @param target  grams in 100 mL
 * @param total   volume of the finished solution, mL, above 0
 * @returns grams to weigh
 */
export function soluteFor(target: Percent<"w/v">, total: Millilitres): Result<Grams, PercentError> {
  const wrong = checkWanted(volume(total));
  if (wrong) return err(wrong);
  if (target.value === 0) return err({ kind: "no-solute", of: target.kind });
  return ok(grams((total * target.value) / 100));
}

/**
 * Volume of a percentage stock that holds a wanted mass of the chemical.
 *
 * @param wanted  grams of the chemical itself, above 0
 * @param stock   grams in 100 mL
 * @returns mL of stock to measure
 */
export function stockHolding(
  wanted: Grams,
  stock: Percent<"w/v">,
): Result<Millilitres, PercentError> {
  const wrong = checkWanted(mass(wanted));
  if (wrong) return err(wrong);
  if (stock.value === 0) return err({ kind: "no-solute", of: stock.kind });
  const needed = millilitres((wanted * 100) / stock.value);
  const tooMuch = checkWanted(volume(needed));
  return tooMuch ? err(tooMuch) : ok(needed);
}

/** The measure a kind of percentage works in: the scale for w/w, the graduate for the others. */
export const measureOf = (kind: PercentKind): Amount["kind"] =>
  kind === "w/w" ? "mass" : "volume";

export const showPercent = (strength: Percent): string =>
  `${plain(strength.value, 2)} % ${strength.kind}`;

/** What was read and what to give instead, in one sentence. */
export function explainPercent(error: PercentError): string {
  switch (error.kind) {
    case "not-a-strength":
      return `I read ${plain(error.value, 2)} % ${error.of}: give a strength from 0 to ${error.most} %.`;
    case "no-solute":
      return `I read 0 % ${error.of}, which is plain water: give a strength above zero.`;
    default:
      return explainWanted(error);
  }
}
