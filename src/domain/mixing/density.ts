import { type Grams, grams, type Millilitres, millilitres } from "../units/quantity.ts";

declare const unit: unique symbol;
/** Density in grams per millilitre. */
export type GramsPerMillilitre = number & { readonly [unit]: "g/mL" };

/** A density of nothing or less is our bug, never the user's: readers refuse those before. */
export function gramsPerMillilitre(value: number): GramsPerMillilitre {
  if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`not a density: ${value} g/mL`);
  return value as GramsPerMillilitre;
}

/** The only way from grams to millilitres: with a density. */
export const volumeOf = (mass: Grams, density: GramsPerMillilitre): Millilitres =>
  millilitres(mass / density);
export const massOf = (volume: Millilitres, density: GramsPerMillilitre): Grams =>
  grams(volume * density);
