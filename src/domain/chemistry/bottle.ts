import { z } from "zod";
import { millilitres, units } from "../units/quantity.ts";

export const bottleSchema = z.object({
  id: z.string(),
  /** Spoken name; no two on a bench sound alike. */
  name: z.string(),
  /** A shape to draw on the label, so that it can be told without reading or colour. */
  mark: z.string(),
  bath: z.string(),
  sheet: z.string().optional(),
  volume: z.number().transform(millilitres),
  /** ISO date in the bench's zone. */
  mixedOn: z.string(),
  by: z.string(),
  used: z.number().transform(units),
  retiredOn: z.string().optional(),
});
export type Bottle = z.infer<typeof bottleSchema>;
