import { err, ok, type Result } from "../result.ts";
import { type Millilitres, millilitres } from "../units/quantity.ts";
import { plain, showVolume } from "../units/show.ts";
import { volume } from "./amount.ts";
import { checkWanted, explainWanted, type WantedError } from "./wanted.ts";

export type Mix = {
  readonly total: Millilitres;
  readonly concentrate: Millilitres;
  readonly water: Millilitres;
};

export type DiluteError =
  | WantedError
  | { readonly kind: "bad-parts"; readonly parts: number; readonly most: number }
  | {
      readonly kind: "too-weak";
      readonly concentrate: Millilitres;
      readonly least: Millilitres;
      /** The total at this dilution that holds enough. */
      readonly enough: Millilitres;
    };

/** More water than any darkroom bath takes: a guard against slips, no source. */
const MOST_PARTS = 10_000;

const badParts = (parts: number): DiluteError | undefined =>
  parts >= 0 && parts <= MOST_PARTS ? undefined : { kind: "bad-parts", parts, most: MOST_PARTS };

/**
 * Splits a wanted volume of working solution into concentrate and water.
 *
 * @param total       working solution, mL, above 0
 * @param waterParts  water to one part of concentrate, 0 or more: 9 for "1+9"
 * @param least       concentrate the load needs, mL; the caller names its source
 * @returns all three volumes in mL, unrounded; concentrate + water = total
 */
export function dilute(
  total: Millilitres,
  waterParts: number,
  least: Millilitres = millilitres(0),
): Result<Mix, DiluteError> {
  const wrong = checkWanted(volume(total)) ?? badParts(waterParts);
  if (wrong) return err(wrong);
  const concentrate = millilitres(total / (1 + waterParts));
  if (concentrate < least) {
    const enough = millilitres(least * (1 + waterParts));
    return err({ kind: "too-weak", concentrate, least, enough });
  }
  return ok({ total, concentrate, water: millilitres(total - concentrate) });
}

/**
 * How far a given amount of concentrate goes.
 *
 * @param concentrate  mL, above 0
 * @param waterParts   water to one part of concentrate, 0 or more
 */
export function diluteAll(concentrate: Millilitres, waterParts: number): Result<Mix, DiluteError> {
  const wrong = checkWanted(volume(concentrate)) ?? badParts(waterParts);
  if (wrong) return err(wrong);
  const total = millilitres(concentrate * (1 + waterParts));
  const tooMuch = checkWanted(volume(total));
  if (tooMuch) return err(tooMuch);
  return ok({ total, concentrate, water: millilitres(concentrate * waterParts) });
}

/**
 * Water parts overall when one dilution is diluted again: each step multiplies the parts in all,
 * so 1+3 then 1+7 is 4 × 8 = 32 parts, 1+31.
 *
 * @param steps  water parts of each step, in any order, each 0 or more
 * @returns water parts to one part of the first concentrate
 */
export function chainDilutions(steps: readonly number[]): Result<number, DiluteError> {
  let inAll = 1;
  for (const waterParts of steps) {
    inAll *= 1 + waterParts;
    const wrong = badParts(waterParts) ?? badParts(inAll - 1);
    if (wrong) return err(wrong);
  }
  return ok(inAll - 1);
}

/** What "1:N" can mean, side by side. */
export type BothReadings = {
  /** One part and N parts of water, N + 1 in all: what most film sheets mean. */
  readonly waterParts: Mix;
  /** One part in N parts in all, N - 1 of water; nothing when N is below one. */
  readonly partsInAll: Mix | undefined;
};

/**
 * Both readings of "1:N" for the same total. That makers mean N parts of water by it is from
 * memory (F-32 developer rows), so the person should see both.
 *
 * @param total  working solution, mL, above 0
 * @param parts  the N, above 0
 */
export function bothReadings(total: Millilitres, parts: number): Result<BothReadings, DiluteError> {
  const asWater = dilute(total, parts);
  if (!asWater.ok) return asWater;
  const inAll = dilute(total, parts - 1);
  return ok({ waterParts: asWater.value, partsInAll: inAll.ok ? inAll.value : undefined });
}

/** What was read and what to give instead, in one sentence. */
export function explainDilute(error: DiluteError): string {
  switch (error.kind) {
    case "bad-parts":
      return `I read ${plain(error.parts, 2)} parts of water: give a number from 0 to ${error.most}, such as 9 for 1+9.`;
    case "too-weak":
      return `That puts in ${showVolume(error.concentrate)} of concentrate and the load needs ${showVolume(error.least)}: mix ${showVolume(error.enough)} or more, or a stronger solution.`;
    default:
      return explainWanted(error);
  }
}
