import { z } from "zod";
import json from "../../data/formulas.json" with { type: "json" };
import { type Amount, mass, volume } from "../domain/mixing/amount.ts";
import type { Formula, Ingredient } from "../domain/mixing/scale-formula.ts";
import type { Origin } from "../domain/origin.ts";
import { type Celsius, celsius, millilitres } from "../domain/units/quantity.ts";

const word = z.string().trim().min(1);
const more = z.number().positive();
/** How well the source was seen. */
const evidence = z.enum(["read", "read-secondary", "from memory", "common practice", "derived"]);
export type Evidence = z.infer<typeof evidence>;

const ingredient = z
  .strictObject({
    name: word,
    compound: word.optional(),
    g: more.optional(),
    ml: more.optional(),
  })
  .transform(({ name, compound, g, ml }, context): FormulaIngredient => {
    if (g !== undefined && ml === undefined) return { name, compound, amount: mass(g) };
    if (ml !== undefined && g === undefined) return { name, compound, amount: volume(ml) };
    context.addIssue(`${name} needs either g or ml`);
    return z.NEVER;
  });

/** An ingredient and, where one can be named, its row among the compounds. */
export type FormulaIngredient = Ingredient & {
  readonly amount: Amount;
  readonly compound: string | undefined;
};

/** A published formula; ingredients in the order they go in, for `total` mL. */
export type PublishedFormula = Formula<FormulaIngredient> & {
  readonly id: string;
  readonly name: string;
  readonly bath: string;
  readonly aliases: readonly string[];
  /** °C of the start water, where the source gives one. */
  readonly startTemperature: Celsius | undefined;
  readonly evidence: Evidence;
  readonly origin: Origin;
  /** The start water can come from elsewhere than the amounts. */
  readonly startOrigin: Origin | undefined;
  readonly notes: readonly string[];
};

const originOf = (grade: Evidence, source: string): Origin => {
  switch (grade) {
    case "read":
      return { kind: "published", source };
    case "read-secondary":
      return { kind: "published", source: `${source} (as quoted elsewhere)` };
    case "derived":
      return { kind: "computed", source };
    default:
      return { kind: grade, source };
  }
};

const published = z
  .strictObject({
    id: z.string().regex(/^[a-z0-9-]+$/),
    name: word,
    bath: word,
    aliases: z.array(word),
    total_ml: more,
    startWater: z
      .strictObject({
        ml: more,
        temp_c: z.number().min(0).max(100).optional(),
        evidence,
        source: word,
      })
      .optional(),
    ingredients: z.array(ingredient).min(1),
    evidence,
    source: word,
    notes: z.array(word),
  })
  .transform(
    ({ total_ml, startWater, source, ...rest }): PublishedFormula => ({
      ...rest,
      total: millilitres(total_ml),
      startWater: startWater && millilitres(startWater.ml),
      startTemperature: startWater?.temp_c === undefined ? undefined : celsius(startWater.temp_c),
      origin: originOf(rest.evidence, source),
      startOrigin: startWater && originOf(startWater.evidence, startWater.source),
    }),
  );

export const formulasSchema = z.array(published).readonly();

/** Published formulas by their trade names, checked; each with its source and evidence grade. */
export const formulas: readonly PublishedFormula[] = formulasSchema.parse(json);
