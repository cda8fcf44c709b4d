import { type Millilitres, millilitres } from "../units/quantity.ts";
import { type Bottle, contentsOf, type FillLevel, fillLevels, fillNow, sizeOf } from "./bottle.ts";

/** The least share of its size at which a bottle still has this level (common practice, no source). */
const least: readonly (readonly [FillLevel, number])[] = [
  ["full", 0.95],
  ["some air", 0.65],
  ["half", 0.45],
];

/** How full a bottle of this size stands with this much in it. */
export function levelOf(contents: Millilitres, size: Millilitres): FillLevel {
  const share = contents / size;
  return least.find(([, from]) => share >= from - 1e-9)?.[0] ?? "less";
}

/** About how much of its size a level stands for, for a bottle whose contents were never told. */
export const shareOf: Readonly<Record<FillLevel, number>> = {
  full: 1,
  "some air": 0.8,
  half: 0.5,
  less: 0.3,
};

/** Does the one level leave more air than the other? */
export const isEmptier = (one: FillLevel, other: FillLevel): boolean =>
  fillLevels.indexOf(one) > fillLevels.indexOf(other);

/** The bottle with another fill level from a day on; nothing is added when it stays as it was. */
export function withFill(bottle: Bottle, fill: FillLevel, on: string): Bottle {
  if (fillNow(bottle) === fill) return bottle;
  const fills = bottle.fills ?? [{ on: bottle.mixedOn, fill: "full" as const }];
  return { ...bottle, fills: [...fills, { on, fill }] };
}

/**
 * The bottle as the eye sees it from a day on. What was poured by measure stays where it agrees; a
 * lower level means that less is in it. A higher one makes no solution out of nothing: the same
 * contents stand in a smaller bottle.
 */
export function seenAs(bottle: Bottle, fill: FillLevel, on: string): Bottle {
  const [contents, size] = [contentsOf(bottle), sizeOf(bottle)];
  if (levelOf(contents, size) === fill || bottle.container === "collapsing") {
    return withFill({ ...bottle, contents }, fill, on);
  }
  const seen =
    size * shareOf[fill] > contents
      ? { contents, size: millilitres(contents / shareOf[fill]) }
      : { contents: millilitres(size * shareOf[fill]) };
  return withFill({ ...bottle, ...seen }, fill, on);
}

/** The fill after its contents changed; a collapsing bottle is squeezed and stays as it was. */
const refilled = (bottle: Bottle, on: string): Bottle =>
  bottle.container === "collapsing"
    ? bottle
    : withFill(bottle, levelOf(contentsOf(bottle), sizeOf(bottle)), on);

/**
 * Poured for a tank, by a volume nobody told: that day counts as one level emptier than it stands.
 * A collapsing bottle takes in no air.
 */
export function openedOn(bottle: Bottle, on: string): Bottle {
  if (bottle.container === "collapsing") return bottle;
  const level = fillNow(bottle);
  const emptier = fillLevels[fillLevels.indexOf(level) + 1] ?? level;
  return withFill(withFill(bottle, emptier, on), level, on);
}

/** Out of the bottle; `back` tells whether it is expected to return. */
export function pourFrom(bottle: Bottle, ml: Millilitres, back: boolean, on: string): Bottle {
  const contents = millilitres(Math.max(0, contentsOf(bottle) - ml));
  const out = back ? { out: millilitres((bottle.out ?? 0) + ml) } : {};
  return refilled({ ...bottle, contents, ...out }, on);
}

/** Back into the bottle. What did not come back is gone, and is no longer waited for. */
export function pourBack(bottle: Bottle, ml: Millilitres, on: string): Bottle {
  const { out: _, ...rest } = bottle;
  const contents = millilitres(Math.min(sizeOf(bottle), contentsOf(bottle) + ml));
  return refilled({ ...rest, contents }, on);
}
