import { z } from "zod";
import file from "../../data/cold-rules.json" with { type: "json" };
import type { ColdRule } from "../domain/temperature/cold-time.ts";
import { celsius, celsiusDifference } from "../domain/units/quantity.ts";

const degrees = z.number().min(0).max(100).transform(celsius);

/** How long fixing and washing take in cold baths; each rule names its source. */
export const coldRules: readonly ColdRule[] = z
  .strictObject({
    rules: z
      .array(
        z
          .strictObject({
            id: z.string(),
            baths: z.array(z.string()).min(1),
            below: degrees,
            step: z.number().positive().transform(celsiusDifference),
            factor: z.number().min(1).max(10),
            lowest: degrees,
            /** What the source says, in short. */
            text: z.string(),
            source: z.string(),
            grade: z.literal("read"),
            note: z.string().optional(),
          })
          .transform(({ id, baths, below, step, factor, lowest, source, grade }) => ({
            id,
            baths,
            below,
            step,
            factor,
            lowest,
            origin: { kind: "published" as const, source: `${source} (${grade})` },
          })),
      )
      .min(1),
  })
  .parse(file).rules;
