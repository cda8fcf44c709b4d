import { z } from "zod";
import { type Origin, showOrigin } from "../origin.ts";
import type { Bath } from "../process/sheet.ts";
import { storedNumber } from "../units/stored.ts";
import type { Keeping } from "./age.ts";
import { type BottleRole, type FillLevel, fillLevels } from "./bottle.ts";

const positive = storedNumber.positive();

/** One default: how long a kind of bath keeps where the bench has no figure of its own. */
export const keepingRowSchema = z.strictObject({
  bath: z.string(),
  role: z.enum(["working", "concentrate", "stock"]),
  /** Only for this process; missing: for any. */
  process: z.string().optional(),
  days: z.strictObject({ full: positive, "some air": positive, half: positive, less: positive }),
  source: z.string().min(1),
  grade: z.enum(["read", "read-secondary", "from memory", "common practice"]),
  note: z.string(),
});
export type KeepingRow = z.infer<typeof keepingRowSchema>;

const originOf = ({ source, grade }: KeepingRow): Origin => {
  switch (grade) {
    case "read":
    case "read-secondary":
      return { kind: "published", source: `${source} (${grade})` };
    case "from memory":
      return { kind: "from memory", source };
    case "common practice":
      return { kind: "common practice", source };
  }
};

/** The row for a bath; of several that fit, the one that keeps the shortest. */
export function defaultKeeping(
  rows: readonly KeepingRow[],
  kind: string,
  role: BottleRole,
  process: string | undefined,
): KeepingRow | undefined {
  const wanted = kind.endsWith("developer") ? "developer" : kind;
  const fits = rows.filter(
    (row) =>
      row.bath === wanted &&
      row.role === role &&
      (row.process === undefined || process === undefined || row.process === process),
  );
  return fits.reduce<KeepingRow | undefined>(
    (least, row) => (least === undefined || row.days.full < least.days.full ? row : least),
    undefined,
  );
}

/** A bath without any row has its air counted as harshly as the harshest row does. */
const HARSH: Readonly<Record<FillLevel, number>> = {
  full: 1,
  "some air": 1 / 2,
  half: 1 / 3,
  less: 1 / 8,
};

const scaled = (full: number, share: (fill: FillLevel) => number): Keeping["days"] =>
  Object.fromEntries(fillLevels.map((fill) => [fill, full * share(fill)])) as Keeping["days"];

/**
 * How long a bath keeps. The bench's sheet first; its single figure is for a full bottle, so the
 * part-full ones are estimated from it in the proportion of our defaults. Without a sheet's
 * figure, the default, which is always an estimate.
 *
 * @returns nothing where neither is known
 */
export function keepingOf(
  bath: Pick<Bath, "keeps" | "keepsPart"> | undefined,
  row: KeepingRow | undefined,
): Keeping | undefined {
  const told = bath?.keeps;
  if (told !== undefined) {
    const part = bath?.keepsPart;
    const share = (fill: FillLevel): number =>
      row === undefined ? HARSH[fill] : row.days[fill] / row.days.full;
    const days = scaled(told.value, (fill) => {
      if (fill === "full" || part === undefined) return share(fill);
      if (told.value <= 0) return 0;
      // The paper's part-full figure holds for any air; emptier still is estimated below it.
      return fill === "less" ? (part.value / told.value) * 0.5 : part.value / told.value;
    });
    return {
      days,
      origin: told.origin,
      estimated: part === undefined,
      how:
        part === undefined
          ? `full ${told.value} days: ${showOrigin(told.origin)}; part full is estimated from it (${row === undefined ? "common practice, no source" : showOrigin(originOf(row))})`
          : `full ${told.value} days, part full ${part.value} days: ${showOrigin(told.origin)}; less than half, half of that (common practice, no source)`,
    };
  }
  if (row === undefined) return undefined;
  return {
    days: row.days,
    origin: originOf(row),
    estimated: true,
    how: `no keeping time on a sheet; estimate: ${showOrigin(originOf(row))}; ${row.note}`,
  };
}
