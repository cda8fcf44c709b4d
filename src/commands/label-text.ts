import { roleOf } from "../domain/chemistry/bottle.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { showDate } from "../domain/timing/clock-text.ts";
import { showUnits, showVolume } from "../domain/units/show.ts";

/** What stands on a bottle, for a pen: the name first and large, the date in full. */
export function labelLines({ bottle, due }: Pick<BottleLook, "bottle" | "due">): readonly string[] {
  const role = roleOf(bottle);
  const working = role === "working";
  const verb = role === "concentrate" ? "opened" : "mixed";
  const assumed = bottle.dateAssumed === undefined ? "" : " at the earliest, date not known";
  const film = working ? `, film so far ${showUnits(bottle.used)}: _____` : "";
  return [
    `${bottle.name.toUpperCase()}  (${bottle.mark})`,
    working ? bottle.bath : `${bottle.bath} ${role}`,
    `${verb} ${showDate(bottle.mixedOn)}${assumed} by ${bottle.by}`,
    due === undefined ? "no limit known: its sheet should say" : `not after ${showDate(due)}`,
    `${showVolume(bottle.volume)}${film}`,
    "NOT FOR DRINKING",
  ];
}
