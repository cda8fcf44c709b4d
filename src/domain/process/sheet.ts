import { z } from "zod";
import { checkLaw, explainLaw } from "../temperature/time-law.ts";
import {
  celsius,
  celsiusDifference,
  grams,
  millilitres,
  seconds,
  units,
} from "../units/quantity.ts";
import { storedId, storedNumber } from "../units/stored.ts";

/**
 * A sheet: the figures of one instruction sheet, taught by its user, or of a published process
 * that ships with us. Every figure carries its origin. Volumes in mL, masses in g, temperatures
 * in °C, times in s, capacity in units of 80 sq in.
 */
export const originSchema = z.object({
  kind: z.enum([
    "sheet",
    "published",
    "common practice",
    "own log",
    "computed",
    "from memory",
    "told",
    "invented",
  ]),
  source: z.string().optional(),
});

export const figureOf = <T extends number>(brand: (value: number) => T, number = storedNumber) =>
  z.object({
    value: number.transform(brand),
    origin: originSchema,
    printed: z.string().optional(),
  });

export const amountSchema = z.union([
  z.object({ ml: storedNumber.positive().transform(millilitres) }),
  z.object({ g: storedNumber.positive().transform(grams) }),
]);

const partSchema = z.object({
  name: z.string(),
  form: z.enum(["liquid", "powder"]),
  /** Missing where only "the whole part, as supplied" is known. */
  amount: amountSchema.optional(),
  origin: originSchema,
});

const mixSchema = z.object({
  total: figureOf(millilitres, storedNumber.positive()),
  startWater: figureOf(millilitres),
  temperature: figureOf(celsius).optional(),
  parts: z.array(partSchema).max(12),
});
export type MixRecipe = z.infer<typeof mixSchema>;

const agitationSchema = z.object({
  /** Continuous from the start of the time. */
  initial: figureOf(seconds),
  /** Start of one beat to the start of the next; missing: no later beats. */
  every: figureOf(seconds).optional(),
  /** How long one beat lasts. */
  each: figureOf(seconds).optional(),
});

export const senses = ["exact", "at least"] as const;

const tableRow = <T extends number>(brand: (value: number) => T) =>
  z.object({ at: storedNumber, time: storedNumber.transform(brand) });

/** How a developer's time rises with the film it has done. */
export const reuseSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("percent"),
    /** Per unit of film, %. */
    percent: storedNumber,
    /** Each on top of the last, only where the sheet says so; else each of the first time. */
    compounded: z.boolean().default(false),
    origin: originSchema,
  }),
  z.object({
    kind: z.literal("seconds"),
    seconds: storedNumber.transform(seconds),
    /** For each unit of film, or for each tank, however much film was in it. */
    per: z.enum(["unit", "batch"]),
    origin: originSchema,
  }),
  z.object({
    kind: z.literal("table"),
    rows: z.array(tableRow(seconds)).min(1).max(60),
    /** Does "3" mean that three are done, or that this is the third? */
    means: z.enum(["done", "this"]),
    origin: originSchema,
  }),
]);
export type ReuseRule = z.infer<typeof reuseSchema>;

/** How a developer's time changes with stops of push, or of pull where they are negative. */
export const pushSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("seconds"),
    seconds: storedNumber.transform(seconds),
    origin: originSchema,
  }),
  z.object({ kind: z.literal("factor"), factor: storedNumber.positive(), origin: originSchema }),
  z.object({
    kind: z.literal("table"),
    rows: z.array(tableRow(seconds)).min(1).max(20),
    origin: originSchema,
  }),
]);
export type PushRule = z.infer<typeof pushSchema>;

/** How a developer's time follows its temperature, where the sheet says so. */
export const timeLawSchema = z
  .discriminatedUnion("kind", [
    z.object({
      kind: z.literal("table"),
      rows: z
        .array(
          z.object({
            at: storedNumber.transform(celsius),
            time: storedNumber.transform(seconds),
          }),
        )
        .max(40),
      origin: originSchema,
    }),
    z.object({ kind: z.literal("q10"), q10: storedNumber, origin: originSchema }),
    z.object({ kind: z.literal("k7"), k7: storedNumber, origin: originSchema }),
  ])
  .superRefine((law, context) => {
    const wrong = checkLaw(law);
    if (wrong !== undefined) context.addIssue(explainLaw(wrong));
  });

const bathSchema = z.object({
  /** What it is called on this sheet, unique in it: "developer", "first wash". */
  name: z.string(),
  /** What it is: developer, bleach, fixer, blix, wash, stabilizer ... */
  kind: z.string(),
  sense: z.enum(senses),
  mix: mixSchema.optional(),
  time: figureOf(seconds).optional(),
  temperature: figureOf(celsius).optional(),
  /** Half width of the band around the temperature. */
  tolerance: figureOf(celsiusDifference).optional(),
  agitation: agitationSchema.optional(),
  /** Seconds into the bath at which a closed tank is vented. */
  vent: figureOf(seconds).optional(),
  /** Pouring out, inside the time. */
  drain: figureOf(seconds).optional(),
  /** Film one batch (the mix total) can take. */
  capacity: figureOf(units).optional(),
  /** The same for a litre, where the source speaks of no batch: goes by what a bottle holds. */
  capacityPerLitre: figureOf(units).optional(),
  /** Days a mixed solution keeps. */
  keeps: figureOf((days) => days).optional(),
  /** Days in a bottle that is not full. */
  keepsPart: figureOf((days) => days).optional(),
  /** Time for film already done; missing: the sheet has no such rule. */
  reuse: reuseSchema.optional(),
  /** The other way to keep a bath level: replenisher, mL for each unit of film. */
  replenish: figureOf(millilitres).optional(),
  push: pushSchema.optional(),
  /** Times at other temperatures; missing: the sheet gives none. */
  timeLaw: timeLawSchema.optional(),
  /** Its time may be changed while film is in it; missing: the sheet does not say so. */
  compensation: z.boolean().optional(),
});
export type Bath = z.infer<typeof bathSchema>;

export const sheetSchema = z.object({
  id: storedId,
  name: z.string(),
  /** Other words people call it by. */
  called: z.array(z.string()).default([]),
  process: z.string(),
  /** Whose ounces and quarts its paper uses. */
  country: z.enum(["us", "imperial"]).optional(),
  /** One sentence on what these figures are, shown with every plan. */
  about: z.string().optional(),
  invented: z.boolean().default(false),
  /** Film of this process spoils baths that serve other film: it is refused unless they are its own. */
  shared: z.object({ rule: z.literal("refuse"), why: z.string(), origin: originSchema }).optional(),
  baths: z.array(bathSchema).min(1).max(16),
});
export type Sheet = z.infer<typeof sheetSchema>;

/** The baths whose smallest trace in a developer ruins it (SS0509-8 Laboratory Procedures, p. 11, read). */
const afterDeveloper = new Set(["bleach", "fixer", "blix", "stop", "stabilizer"]);
export const spoilsDeveloper = (kind: string): boolean => afterDeveloper.has(kind);
export const isDeveloper = (kind: string): boolean => kind.endsWith("developer");

/** Processes in which layers of different colours must stay in balance. */
export const isColour = (process: string): boolean => process !== "black-and-white";

/** Water only: no bottle is fetched for it and nothing tires. */
export const isWater = (kind: string): boolean => kind === "wash" || kind === "prewash";

/** The baths of a sheet a word can mean: by its own name first, then by kind. */
export function bathsCalled(sheet: Sheet, word: string): readonly Bath[] {
  const named = sheet.baths.filter((bath) => bath.name === word);
  if (named.length > 0) return named;
  const kind = sheet.baths.filter((bath) => bath.kind === word);
  if (kind.length > 0) return kind;
  // "developer" is enough for a sheet that calls its only one "colour developer".
  if (word === "developer") return sheet.baths.filter((bath) => isDeveloper(bath.kind));
  if (word === "colour developer" || word === "first developer") {
    return sheet.baths.filter((bath) => bath.kind === "developer");
  }
  return [];
}
