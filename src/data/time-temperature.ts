import { z } from "zod";
import file from "../../data/time-temperature.json" with { type: "json" };
import type { Origin } from "../domain/origin.ts";
import { checkLaw, explainLaw, type TimeLaw } from "../domain/temperature/time-law.ts";
import { minutes } from "../domain/units/conversions.ts";
import { celsius } from "../domain/units/quantity.ts";

/** Times of one developer and film at several temperatures, as published. */
export type TimeTable = {
  readonly id: string;
  /** What it is called in a list. */
  readonly name: string;
  readonly process: string;
  readonly agitation: "rotary" | "inversion" | "any";
  readonly law: Extract<TimeLaw, { kind: "table" }>;
  /** Read at its source; the others are shown when asked for and never taken silently. */
  readonly trusted: boolean;
};

const tableSchema = z
  .strictObject({
    id: z.string(),
    name: z.string(),
    process: z.string(),
    agitation: z.enum(["rotary", "inversion", "any"]),
    rows: z.array(
      z
        .strictObject({ at: z.number(), minutes: z.number().positive() })
        .transform((row) => ({ at: celsius(row.at), time: minutes(row.minutes) })),
    ),
    source: z.string(),
    grade: z.enum(["read", "from memory"]),
  })
  .transform(({ rows, source, grade, ...table }, context): TimeTable => {
    const trusted = grade === "read";
    const origin: Origin = trusted
      ? { kind: "published", source: `${source} (${grade})` }
      : { kind: "from memory", source };
    const law = { kind: "table", rows, origin } as const;
    const wrong = checkLaw(law);
    if (wrong) context.addIssue(explainLaw(wrong));
    return { ...table, law, trusted };
  });

/** Published time-temperature tables. A bench chooses one by name; none is a default. */
export const timeTables: readonly TimeTable[] = z
  .strictObject({ tables: z.array(tableSchema) })
  .parse(file).tables;
