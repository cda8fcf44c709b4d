import type { Bottle } from "../domain/chemistry/bottle.ts";
import { showDate } from "../domain/timing/clock-text.ts";
import { showUnits, showVolume } from "../domain/units/show.ts";

/** What stands on a bottle, for a pen: the name first and large, the date in full. */
export const labelLines = (bottle: Bottle): readonly string[] => [
  `${bottle.name.toUpperCase()}  (${bottle.mark})`,
  bottle.bath,
  `mixed ${showDate(bottle.mixedOn)} by ${bottle.by}`,
  `${showVolume(bottle.volume)}, film so far ${showUnits(bottle.used)}: _____`,
  "NOT FOR DRINKING",
];
