import { z } from "zod";
import { type Amount, mass, volume } from "../domain/mixing/amount.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Country, volumeTo } from "../domain/units/conversions.ts";
import { type Grams, type Millilitres, millilitres } from "../domain/units/quantity.ts";
import { showMass, showOunces, showVolumeFor } from "../domain/units/show.ts";

/** A volume in mL; the message is the question asked when it is missing. */
export const volumeField = (question: string) => z.number(question).transform(millilitres);

/** A volume or a mass, as the reader gives it. */
export const amountField = (question: string) =>
  z
    .union([z.object({ ml: z.number() }), z.object({ g: z.number() })], question)
    .transform((said): Amount => ("ml" in said ? volume(said.ml) : mass(said.g)));

/** A handler's amount as a raw field again, for a question that comes back with it. */
export const rawAmount = (amount: Amount | undefined) =>
  amount === undefined ? undefined : amount.kind === "volume" ? { ml: amount.ml } : { g: amount.g };

const isWhole = (ounces: number): boolean =>
  ounces >= 0.5 && Math.abs(ounces * 2 - Math.round(ounces * 2)) < 1e-6;

/**
 * Whose ounces a volume was said in, if in any: it is a whole or half number of them to a
 * millionth, and no volume said in mL or L that a bench can hold is that.
 */
export const saidIn = (said: Millilitres): Country | undefined =>
  (["us", "imperial"] as const).find((country) => isWhole(volumeTo(said, "fl oz", country)));

/** Whose ounces an answer shows beside mL: those of the question, else those of the bench. */
export const countryFor = (bench: Bench, said?: Millilitres): Country | undefined =>
  (said === undefined ? undefined : saidIn(said)) ?? bench.country;

export const countryOf = (bench: Bench, said: Amount | undefined): Country | undefined =>
  countryFor(bench, said?.kind === "volume" ? said.ml : undefined);

/** Grams, with ounces and grains behind where the answer shows them. */
export const showMassFor = (g: Grams, country: Country | undefined): string =>
  country === undefined ? showMass(g) : `${showMass(g)} (${showOunces(g)})`;

export const showAmountFor = (amount: Amount, country: Country | undefined): string =>
  amount.kind === "volume" ? showVolumeFor(amount.ml, country) : showMassFor(amount.g, country);

/** The key of an amount among `values`: "stock_ml" or "stock_g". */
export const keyOf = (name: string, amount: Amount): string =>
  `${name}_${amount.kind === "volume" ? "ml" : "g"}`;
