import { z } from "zod";
import { amountSchema, senses } from "../process/sheet.ts";
import { celsius, celsiusDifference, millilitres, seconds } from "../units/quantity.ts";

export const measures = ["metric", "us", "imperial"] as const;
export type Measure = (typeof measures)[number];

const ml = z.number().transform(millilitres);
const s = z.number().transform(seconds);

const bathAnswers = z.object({
  total: ml.nullable(),
  water: ml,
  warm: z.number().transform(celsius).nullable(),
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
      temperature: z.number().transform(celsius),
      tolerance: z.number().transform(celsiusDifference).optional(),
    })
    .nullable(),
  agitation: z.object({ initial: s, every: s.optional(), each: s.optional() }).nullable(),
  capacity: z.number().nullable(),
  /** Days. */
  keeps: z.number().nullable(),
});

/** What was read off the paper so far. A null is an answer too: the paper does not say. */
export const answersSchema = z.object({
  name: z.string().optional(),
  process: z.string().optional(),
  measure: z.enum(measures).optional(),
  baths: z.array(z.object({ name: z.string(), kind: z.string() })).optional(),
  bath: z.record(z.string(), bathAnswers.partial()).optional(),
});
export type Answers = z.infer<typeof answersSchema>;
export type BathAnswers = NonNullable<Answers["bath"]>[string];
