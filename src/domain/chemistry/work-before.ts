import type { Millilitres, Units } from "../units/quantity.ts";
import { type Bottle, workDone } from "./bottle.ts";
import type { WorkBefore } from "./reuse-time.ts";

/** Whole tanks that so much film was, at one unit each. */
const wholeAbove = (film: number): number => Math.max(0, Math.ceil(film - 1e-9));

type Counts = Pick<Bottle, "used" | "batches" | "batchesAssumed">;

/**
 * Tanks a bottle has done. Where only film was counted, one tank for each unit is taken: the most
 * it can well be, and so the longer time.
 */
export const tanksDone = ({
  used,
  batches,
  batchesAssumed,
}: Counts): { readonly tanks: number; readonly assumed: boolean } =>
  batches === undefined
    ? { tanks: wholeAbove(used), assumed: used > 1e-9 }
    : { tanks: batches, assumed: batchesAssumed === true };

/** The same after a count that was set by hand, which says nothing of tanks. */
export function tanksAfterCount(
  bottle: Counts,
  used: number,
): Pick<Bottle, "batches" | "batchesAssumed"> {
  const { tanks, assumed } = tanksDone(bottle);
  const by = used - bottle.used;
  if (Math.abs(by) < 1e-9)
    return assumed ? { batches: tanks, batchesAssumed: true } : { batches: tanks };
  const most = wholeAbove(used);
  if (most === 0) return { batches: 0 };
  return {
    batches: by > 0 ? tanks + wholeAbove(by) : Math.min(tanks, most),
    batchesAssumed: true,
  };
}

/** Film another run will put through a bottle first. */
export type Promised = { readonly tank: string; readonly units: Units };

/**
 * What a bottle will have done when a tank is poured, for the batch volume its sheet speaks of:
 * half a batch tires twice as fast. The volume itself is scaled, never a rule of thumb for it.
 *
 * @param batch  the volume the sheet's rule speaks of, mL; missing: the bottle's own
 * @param first  film of other runs that pour before
 * @param load   film of this tank, units
 */
export function workBefore(
  bottle: Bottle,
  batch: Millilitres | undefined,
  first: readonly Promised[] = [],
  load = 0,
): WorkBefore {
  const { volume } = bottle;
  const scale = batch === undefined || volume >= batch || volume <= 0 ? 1 : batch / volume;
  const { tanks, assumed } = tanksDone(bottle);
  const more = first.reduce((sum, { units }) => sum + units, 0);
  return {
    units: (workDone(bottle) + more) * scale,
    batches: tanks + first.length,
    ...(assumed ? { tanksAssumed: true } : {}),
    ...(load > 0 ? { load: load * scale } : {}),
    ...(first.length === 0 ? {} : { first }),
  };
}
