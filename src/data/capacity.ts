import { z } from "zod";
import file from "../../data/capacity.json" with { type: "json" };
import { type CapacityRow, capacityRowSchema } from "../domain/chemistry/capacity.ts";

/** What a litre of a bath can do where a bench has no figure of its own; always an estimate. */
export const capacityRows: readonly CapacityRow[] = z
  .strictObject({ rows: z.array(capacityRowSchema) })
  .parse(file).rows;
