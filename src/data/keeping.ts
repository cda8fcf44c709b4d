import { z } from "zod";
import file from "../../data/keeping.json" with { type: "json" };
import { type KeepingRow, keepingRowSchema } from "../domain/chemistry/keeping.ts";

/** How long baths keep where a bench has no figure of its own; always an estimate. */
export const keepingRows: readonly KeepingRow[] = z
  .strictObject({ rows: z.array(keepingRowSchema) })
  .parse(file).rows;
