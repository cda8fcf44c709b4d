import { z } from "zod";
import { millilitres, units } from "../units/quantity.ts";
import { storedId, storedInstant, storedNumber, storedPastDay } from "../units/stored.ts";

/** What a bottle is for: pours from a concentrate or a stock never go back into it. */
export const bottleRoles = ["working", "concentrate", "stock"] as const;
export type BottleRole = (typeof bottleRoles)[number];

/** How full it stands, best first: the air above a solution ages it. */
export const fillLevels = ["full", "some air", "half", "less"] as const;
export type FillLevel = (typeof fillLevels)[number];

/** A collapsing bottle has its air squeezed out, so pouring does not open air space in it. */
export const containers = ["glass", "plastic", "collapsing"] as const;
export type Container = (typeof containers)[number];

const ml = storedNumber.transform(millilitres);
const fill = z.enum(fillLevels);

const clipTestSchema = z.object({
  at: storedInstant,
  /** ISO date in the bench's zone. */
  on: storedPastDay,
  by: z.string(),
  passed: z.boolean(),
  /** Fixing baths: how long a leader took to clear, s. */
  clearing: storedNumber.optional(),
  /** It failed, and somebody said all the same that the bottle is trusted. */
  overruled: z.literal(true).optional(),
});

export const bottleSchema = z.object({
  id: storedId,
  /** Spoken name; no two on a bench sound alike. */
  name: z.string(),
  /** A shape to draw on the label, so that it can be told without reading or colour. */
  mark: z.string(),
  bath: z.string(),
  sheet: storedId.optional(),
  /** Solution it was filled with, mL: the film it can do goes by this. */
  volume: storedNumber.positive().transform(millilitres),
  /** ISO date in the bench's zone: mixed, or for a concentrate opened. */
  mixedOn: storedPastDay,
  by: z.string(),
  /** Film done in it. */
  used: storedNumber.transform(units),
  retiredOn: storedPastDay.optional(),

  // Missing in records made before these were kept: working, full, glass or plastic unknown.
  role: z.enum(bottleRoles).optional(),
  /** Solution in it now, mL; missing: all of `volume`. */
  contents: ml.optional(),
  /** Poured out and expected back, mL. */
  out: ml.optional(),
  /** What it holds when full to the neck, mL; missing: `volume`. */
  size: ml.optional(),
  container: z.enum(containers).optional(),
  place: z.string().optional(),
  /** The date is the earliest plausible one, not a known one; how it was found. */
  dateAssumed: z.string().optional(),
  /** How full it has stood, oldest first; missing: full since `mixedOn`. */
  fills: z.array(z.object({ on: storedPastDay, fill })).optional(),
  /** Tanks it has been poured for, for rules that count batches. */
  batches: storedNumber.int().optional(),
  /** Some of those tanks were never counted: one for each unit was taken. */
  batchesAssumed: z.boolean().optional(),
  /** Film whose work was made good by replenisher. */
  replenished: storedNumber.transform(units).optional(),
  suspect: z
    .object({
      since: storedInstant,
      why: z.string(),
      /** When what spoils it got in: film that was out before did not meet it. Missing: not known. */
      from: storedInstant.optional(),
      /** Something foreign got in: a passed test does not take this off. */
      contaminated: z.literal(true).optional(),
    })
    .optional(),
  retired: z.object({ on: storedPastDay, why: z.string(), route: z.string() }).optional(),
  price: z.object({ amount: storedNumber, currency: z.string() }).optional(),
  tests: z.array(clipTestSchema).optional(),
  /** Other bottles that were poured into this one, by id. */
  mixedFrom: z.array(storedId).optional(),
});
export type Bottle = z.infer<typeof bottleSchema>;

export const roleOf = (bottle: Bottle): BottleRole => bottle.role ?? "working";
export const contentsOf = (bottle: Bottle): Bottle["volume"] => bottle.contents ?? bottle.volume;
export const sizeOf = (bottle: Bottle): Bottle["volume"] => bottle.size ?? bottle.volume;
export const fillNow = (bottle: Bottle): FillLevel => bottle.fills?.at(-1)?.fill ?? "full";

/** Film that still weighs on it: what replenisher made good is taken off. */
export const workDone = (bottle: Bottle): Bottle["used"] =>
  units(Math.max(0, bottle.used - (bottle.replenished ?? 0)));
