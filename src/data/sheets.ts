import { z } from "zod";
import blackAndWhite from "../../data/sheets/black-and-white.json" with { type: "json" };
import colourNegative from "../../data/sheets/colour-negative.json" with { type: "json" };
import demo from "../../data/sheets/demo.json" with { type: "json" };
import motionPictureNegative from "../../data/sheets/motion-picture-negative.json" with {
  type: "json",
};
import quartOutline from "../../data/sheets/quart-outline.json" with { type: "json" };
import reversalSixBath from "../../data/sheets/reversal-six-bath.json" with { type: "json" };
import reversalThreeBath from "../../data/sheets/reversal-three-bath.json" with { type: "json" };
import { originSchema, type Sheet, sheetSchema } from "../domain/process/sheet.ts";

/**
 * In a data file an origin is named once under `origins` and used by its key; the sheet a bench
 * holds has it written out at every figure.
 */
function writtenOut(file: unknown): unknown {
  const { origins, ...sheet } = z
    .looseObject({ origins: z.record(z.string(), originSchema) })
    .parse(file);
  const walk = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(walk);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => {
        if (key !== "origin" || typeof inner !== "string") return [key, walk(inner)];
        const origin = origins[inner];
        if (origin === undefined) throw new Error(`origin "${inner}" is not named in the file`);
        return [key, origin];
      }),
    );
  };
  return walk(sheet);
}

const shippedSheet = (file: unknown): Sheet => sheetSchema.parse(writtenOut(file));

/** The sheets that come with Wetside. Read only; a bench's own sheets stand beside them. */
export const shippedSheets: readonly Sheet[] = [
  shippedSheet(colourNegative),
  shippedSheet(blackAndWhite),
  shippedSheet(reversalSixBath),
  shippedSheet(reversalThreeBath),
  shippedSheet(motionPictureNegative),
  shippedSheet(quartOutline),
  shippedSheet(demo),
];

/** Times when the bench has no sheet in use: the published cycle, whose developer figures were read. */
export const defaultProcessSheet = "colour-negative";
/** Mixing when the bench has no sheet in use. */
export const defaultMixingSheet = "quart-outline";
