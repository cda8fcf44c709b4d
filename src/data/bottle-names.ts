import { z } from "zod";
import file from "../../data/bottle-names.json" with { type: "json" };

const checked = z
  .object({
    names: z.array(z.string().min(3)).min(20),
    marks: z.object({ developer: z.array(z.string()).min(1), other: z.array(z.string()).min(1) }),
  })
  .parse(file);

export const bottleNames: readonly string[] = checked.names;
/** Shapes to draw on labels: those with corners are for the developer side. */
export const bottleMarks: {
  readonly developer: readonly string[];
  readonly other: readonly string[];
} = checked.marks;
