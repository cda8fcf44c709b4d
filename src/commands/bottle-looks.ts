import { capacityRows } from "../data/capacity.ts";
import { keepingRows } from "../data/keeping.ts";
import type { Bottle } from "../domain/chemistry/bottle.ts";
import { type CapacityLeft, capacityLeft } from "../domain/chemistry/capacity-left.ts";
import { type BottleLook, lookAt } from "../domain/chemistry/look.ts";
import { oncePer } from "../domain/once-per.ts";
import type { Sheet } from "../domain/process/sheet.ts";
import { type Bench, liveBottles } from "../domain/session/bench.ts";
import { dateOf } from "../domain/timing/clock-text.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { sheetById, sheetFor } from "./sheets.ts";

/**
 * The sheet whose figures hold for a bottle: the one it was bottled by, or the sheet in use. A
 * shipped sheet nobody chose holds for no bottle.
 */
function sheetOf(bench: Bench, bottle: Bottle): Sheet | undefined {
  if (bottle.sheet !== undefined) return sheetById(bench, bottle.sheet);
  const found = sheetFor(bench, "process");
  return found?.chosen === true ? found.sheet : undefined;
}

/** A bottle looked at once a day, as long as it and its sheet stay what they are. */
const look = oncePer(
  (bottle: Bottle, sheet: Sheet | undefined, day: string): BottleLook =>
    lookAt(bottle, { sheetOf: () => sheet, keeping: keepingRows, capacity: capacityRows }, day),
);

/** One bottle as it stands on a day, ISO in the bench's zone. */
export const lookOn = (bench: Bench, bottle: Bottle, day: string): BottleLook =>
  look(bottle, sheetOf(bench, bottle), day);

/** One bottle as it stands now. */
export const lookNow = (bench: Bench, bottle: Bottle, now: Instant): BottleLook =>
  lookOn(bench, bottle, dateOf(now, bench.zone));

/** Every bottle that is not retired, as it stands on a day. */
export function looksOn(bench: Bench, day: string): readonly BottleLook[] {
  return liveBottles(bench).map((bottle) => look(bottle, sheetOf(bench, bottle), day));
}

export const looksNow = (bench: Bench, now: Instant): readonly BottleLook[] =>
  looksOn(bench, dateOf(now, bench.zone));

/** Capacity left by process and bath, and whether the chemistry is doubtful: for the planner. */
export const benchCapacity = (bench: Bench, now: Instant): readonly CapacityLeft[] =>
  capacityLeft(looksNow(bench, now));
