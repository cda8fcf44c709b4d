import { z } from "zod";
import file from "../../data/clip-tests.json" with { type: "json" };

const checked = z
  .strictObject({
    tests: z
      .array(
        z.strictObject({
          id: z.string(),
          baths: z.array(z.string()).min(1),
          steps: z.array(z.string()).min(1),
          /** What passes. */
          pass: z.string(),
          asks: z.string(),
          measures: z.enum(["nothing", "clearing"]),
          source: z.string(),
        }),
      )
      .min(1),
  })
  .parse(file).tests;

export type ClipTestSteps = (typeof checked)[number];

/** The test for a kind of bath; the last one is for all that have none of their own. */
export function clipTestFor(kind: string): ClipTestSteps {
  const bath = kind.endsWith("developer") ? "developer" : kind;
  const found = checked.find(({ baths }) => baths.includes(bath) || baths.includes("any"));
  if (found === undefined) throw new Error("no clip test for any bath");
  return found;
}
