import { z } from "zod";
import { storedInstant, storedNumber } from "../units/stored.ts";

export const edgeNumbers = ["crisp", "faint", "missing"] as const;
export const clearParts = ["clear", "cloudy", "tinted"] as const;
export const rebates = ["sound", "fogged"] as const;
export const places = ["nothing", "same", "different"] as const;

const level = storedNumber.min(0);

/** What a scanner showed of one spot: three numbers, and the largest that its scale has. */
export const rgbSchema = z.object({
  red: level,
  green: level,
  blue: level,
  most: storedNumber.positive(),
});
export type Rgb = z.infer<typeof rgbSchema>;

/** What was seen of the film once it was dry. A field is missing where it was not answered. */
export const firstLookSchema = z.object({
  at: storedInstant,
  edgeNumbers: z.enum(edgeNumbers).optional(),
  clearParts: z.enum(clearParts).optional(),
  /** The unexposed strip along the edges: clear on a negative, black on a slide, else fogged. */
  rebate: z.enum(rebates).optional(),
  sameOnAll: z.boolean().optional(),
  /** Streaks, spots or bands: none, at the same place on each frame, or at different ones. */
  place: z.enum(places).optional(),
  /** The unexposed edge, and a grey, as a scanner gives them. */
  edge: rgbSchema.optional(),
  grey: rgbSchema.optional(),
});
export type FirstLook = z.infer<typeof firstLookSchema>;
