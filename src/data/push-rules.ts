import { z } from "zod";
import file from "../../data/push-rules.json" with { type: "json" };
import type { Origin } from "../domain/origin.ts";
import type { PushRule } from "../domain/process/sheet.ts";
import { type Seconds, seconds } from "../domain/units/quantity.ts";

const row = z.object({ at: z.number(), time: z.number() });
const checked = z
  .strictObject({
    rules: z.array(
      z.strictObject({
        id: z.string(),
        /** What it is chosen by. */
        word: z.string(),
        process: z.string(),
        rule: z.discriminatedUnion("kind", [
          z.object({ kind: z.literal("seconds"), seconds: z.number() }),
          z.object({ kind: z.literal("factor"), factor: z.number().positive() }),
          z.object({ kind: z.literal("increments"), rows: z.array(row).min(1) }),
        ]),
        text: z.string(),
        source: z.string(),
        grade: z.enum(["read", "read-secondary", "from memory", "common practice"]),
      }),
    ),
  })
  .parse(file).rules;

export type CirculatingRule = (typeof checked)[number];

/** Push rules people use, none of them the bench's own; offered, never taken silently. */
export const circulatingRules = (process: string): readonly CirculatingRule[] =>
  checked.filter((rule) => rule.process === process);

const originOf = ({ source, grade }: CirculatingRule): Origin =>
  grade === "from memory"
    ? { kind: "from memory", source }
    : grade === "common practice"
      ? { kind: "common practice", source }
      : {
          kind: "published",
          source: source.includes("(read") ? source : `${source} (second hand)`,
        };

/** A rule as a sheet would hold it; increments become a table on this base time. */
export function asPushRule(found: CirculatingRule, base: Seconds): PushRule {
  const origin = originOf(found);
  const { rule } = found;
  switch (rule.kind) {
    case "seconds":
      return { kind: "seconds", seconds: seconds(rule.seconds), origin };
    case "factor":
      return { kind: "factor", factor: rule.factor, origin };
    case "increments":
      return {
        kind: "table",
        rows: rule.rows.map(({ at, time }) => ({ at, time: seconds(base + time) })),
        origin,
      };
  }
}
