import { z } from "zod";
import json from "../../data/compounds.json" with { type: "json" };
import type { Compound } from "../domain/mixing/swap.ts";

const word = z.string().trim().min(1);

const compound = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  name: word,
  /** Brackets and counts only: "Na2CO3(H2O)10". */
  formula: z.string().regex(/^[A-Za-z0-9()]+$/),
  molarMass: z.number().positive(),
  family: word,
  activePerFormulaUnit: z.int().positive(),
  aliases: z.array(word).readonly(),
  source: word,
});

/** Every way to name a compound leads to one compound. */
export const compoundsSchema = z
  .array(compound)
  .readonly()
  .superRefine((all, context) => {
    const owners = new Map<string, string>();
    for (const { id, name, aliases } of all) {
      for (const said of new Set([id, name, ...aliases].map((each) => each.toLowerCase()))) {
        const owner = owners.get(said);
        if (owner !== undefined) {
          context.addIssue(`"${said}" names both ${owner} and ${id}`);
        }
        owners.set(said, id);
      }
    }
  });

/** Dry chemicals with their molar masses, checked; each row names its source. */
export const compounds: readonly (Compound & { readonly source: string })[] =
  compoundsSchema.parse(json);
