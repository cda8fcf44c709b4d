import { type Grams, grams, type Millilitres, millilitres } from "../units/quantity.ts";
import { showMass, showVolume } from "../units/show.ts";

/** An amount measured in a graduate, mL. */
export type Volume = { readonly kind: "volume"; readonly ml: Millilitres };
/** An amount measured on a scale, g. */
export type Mass = { readonly kind: "mass"; readonly g: Grams };
/** How much of something, and whether it is measured or weighed. */
export type Amount = Volume | Mass;

export const volume = (ml: number): Volume => ({ kind: "volume", ml: millilitres(ml) });
export const mass = (g: number): Mass => ({ kind: "mass", g: grams(g) });

/** The bare number, in mL or g as the kind says. */
export const sizeOf = (amount: Amount): number => (amount.kind === "volume" ? amount.ml : amount.g);

/** The same kind of amount, `by` times as much. */
export const scaleAmount = (amount: Amount, by: number): Amount =>
  amount.kind === "volume" ? volume(amount.ml * by) : mass(amount.g * by);

export const showAmount = (amount: Amount): string =>
  amount.kind === "volume" ? showVolume(amount.ml) : showMass(amount.g);
