import { z } from "zod";
import type { Figure, Origin } from "../origin.ts";
import type { Bath } from "../process/sheet.ts";
import { type Units, units } from "../units/quantity.ts";
import { storedNumber } from "../units/stored.ts";
import type { Bottle } from "./bottle.ts";

/** One default: film a litre of a bath can do where the bench's sheet has no figure. */
export const capacityRowSchema = z.strictObject({
  bath: z.string(),
  /** Only for this process: black-and-white figures say nothing about colour. */
  process: z.string(),
  /** Units of 80 sq in for each litre. */
  perLitre: storedNumber.positive(),
  source: z.string().min(1),
  grade: z.enum(["read", "read-secondary"]),
  note: z.string(),
});
export type CapacityRow = z.infer<typeof capacityRowSchema>;

export type Capacity = Figure<Units> & {
  /** No sheet says it: a rule of thumb. */
  readonly estimated: boolean;
};

const originOf = ({ source, grade }: CapacityRow): Origin => ({
  kind: "published",
  source: `${source} (${grade})`,
});

/**
 * Film a bottle can take: the sheet's figure is for one batch, so a smaller bottle takes less. A
 * sheet without a batch volume is taken to mean this bottle. A figure for a litre goes by what the
 * bottle holds. Without a sheet's figure a published rule of thumb for the process, if there is one.
 */
export function capacityOf(
  bottle: Pick<Bottle, "volume" | "bath">,
  bath: Bath | undefined,
  process: string | undefined,
  rows: readonly CapacityRow[],
): Capacity | undefined {
  const figure = bath?.capacity;
  if (figure !== undefined) {
    const batch = bath?.mix?.total.value;
    const share = batch === undefined || batch <= 0 ? 1 : Math.min(1, bottle.volume / batch);
    return { value: units(figure.value * share), origin: figure.origin, estimated: false };
  }
  const litre = bath?.capacityPerLitre;
  if (litre !== undefined) {
    const value = units((litre.value * bottle.volume) / 1000);
    return { value, origin: litre.origin, estimated: false };
  }
  const kind = bath?.kind ?? bottle.bath;
  const row = rows.find((one) => one.bath === kind && one.process === process);
  if (row === undefined) return undefined;
  const value = units((row.perLitre * bottle.volume) / 1000);
  return { value, origin: originOf(row), estimated: true };
}
