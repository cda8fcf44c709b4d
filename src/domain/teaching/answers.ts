import { z } from "zod";
import { amountSchema, senses } from "../process/sheet.ts";
import { celsius, celsiusDifference, millilitres, seconds } from "../units/quantity.ts";
import { storedNumber } from "../units/stored.ts";

export const measures = ["metric", "us", "imperial"] as const;
export type Measure = (typeof measures)[number];

const ml = storedNumber.transform(millilitres);
const s = storedNumber.transform(seconds);

const row = z.object({ at: storedNumber, time: s });

const bathAnswers = z.object({
  total: ml.nullable(),
  water: ml,
  warm: storedNumber.transform(celsius).nullable(),
  parts: z.array(
    z.object({
      name: z.string(),
      form: z.enum(["liquid", "powder"]),
      amount: amountSchema.optional(),
    }),
  ),
  time: z.object({ time: s, sense: z.enum(senses) }),
  temperature: z
    .object({
      temperature: storedNumber.transform(celsius),
      tolerance: storedNumber.transform(celsiusDifference).optional(),
      /** The range it is the middle of, as it was told: "95 to 105 °F". */
      told: z.string().optional(),
    })
    .nullable(),
  agitation: z.object({ initial: s, every: s.optional(), each: s.optional() }).nullable(),
  capacity: storedNumber.nullable(),
  /** Days, in a full bottle or in any. */
  keeps: storedNumber.nullable(),
  /** Days in a bottle that is not full, where the paper has that too. */
  keepsPart: storedNumber.nullable(),
  reuse: z
    .discriminatedUnion("kind", [
      z.object({
        kind: z.literal("percent"),
        percent: storedNumber,
        compounded: z.boolean(),
      }),
      z.object({ kind: z.literal("seconds"), seconds: s, per: z.enum(["unit", "batch"]) }),
      z.object({ kind: z.literal("table"), rows: z.array(row) }),
      z.object({ kind: z.literal("replenish"), ml }),
    ])
    .nullable(),
  /** What a row of the re-use table means. */
  rows: z.enum(["done", "this"]),
  push: z
    .discriminatedUnion("kind", [
      z.object({ kind: z.literal("seconds"), seconds: s }),
      z.object({ kind: z.literal("factor"), factor: storedNumber }),
      z.object({ kind: z.literal("table"), rows: z.array(row) }),
    ])
    .nullable(),
  /** Times at other temperatures. */
  times: z
    .discriminatedUnion("kind", [
      z.object({
        kind: z.literal("table"),
        rows: z.array(z.object({ at: storedNumber.transform(celsius), time: s })),
      }),
      z.object({ kind: z.literal("q10"), q10: storedNumber }),
      z.object({ kind: z.literal("k7"), k7: storedNumber }),
    ])
    .nullable(),
  /** The paper lets the time be changed while film is in the bath. */
  compensation: z.boolean().nullable(),
});

/** What was read off the paper so far. A null is an answer too: the paper does not say. */
export const answersSchema = z.object({
  name: z.string().optional(),
  process: z.string().optional(),
  measure: z.enum(measures).optional(),
  baths: z.array(z.object({ name: z.string(), kind: z.string() })).optional(),
  bath: z.record(z.string(), bathAnswers.partial()).optional(),
  /** Not off a paper: where it came from, in words. */
  from: z.string().optional(),
  /** Made-up figures, which its giver called that. */
  invented: z.literal(true).optional(),
});
export type Answers = z.infer<typeof answersSchema>;
export type BathAnswers = NonNullable<Answers["bath"]>[string];
