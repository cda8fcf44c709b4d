import { z } from "zod";
import file from "../../data/look-signs.json" with { type: "json" };

const checked = z
  .strictObject({
    signs: z
      .array(
        z.strictObject({
          baths: z.array(z.string()).min(1),
          sign: z.string(),
          /** `out`: retire it; `test`: no film before a clip test. */
          verdict: z.enum(["out", "test"]),
          text: z.string(),
          source: z.string(),
        }),
      )
      .min(1),
  })
  .parse(file).signs;

/** What a look means for a kind of bath; the last row is for all that have none of their own. */
export function lookSign(kind: string, sign: string): (typeof checked)[number] {
  const bath = kind.endsWith("developer") ? "developer" : kind;
  const found = checked.find(
    (row) =>
      (row.baths.includes(bath) || row.baths.includes("any")) &&
      (row.sign === sign || row.sign === "any"),
  );
  if (found === undefined) throw new Error("no verdict for any look");
  return found;
}
