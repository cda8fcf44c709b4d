import { shippedSheets } from "../data/sheets.ts";
import { type RollNames, rollNames } from "../domain/film/roll-names.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Listening } from "../language/reader.ts";

/** The names and habits of a bench, as the readers need them. */
export function listeningOf(bench: Bench, now: Instant): Listening {
  const bottle = new Map<string, string>();
  for (const { id, name, retiredOn } of Object.values(bench.bottles)) {
    if (retiredOn === undefined) bottle.set(name.toLowerCase(), id);
  }
  const sheet = new Map<string, string>();
  for (const { id, name, called } of [...shippedSheets, ...Object.values(bench.sheets)]) {
    for (const word of [...called, name]) sheet.set(word.toLowerCase(), id);
  }
  const tank = new Map<string, string>();
  for (const run of Object.values(bench.runs)) tank.set(run.tank.toLowerCase(), run.tank);
  return {
    now,
    zone: bench.zone,
    // A taught sheet answered this for its own paper; the bench's own answer outranks it.
    country: bench.country ?? bench.sheets[bench.sheetInUse ?? ""]?.country,
    degrees: bench.degrees,
    names: { bottle, sheet, tank },
    rolls: rollsOf(bench.rolls),
  };
}

/** Worked out once per list: a bench may hold thousands of rolls, and most turns change none. */
const known = new WeakMap<Bench["rolls"], RollNames>();

function rollsOf(rolls: Bench["rolls"]): RollNames {
  const before = known.get(rolls);
  if (before !== undefined) return before;
  const names = rollNames(Object.values(rolls));
  known.set(rolls, names);
  return names;
}
