import { shippedSheets } from "../data/sheets.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveBottles } from "../domain/session/bench.ts";
import type { OwnNames } from "./grammar/own-names.ts";

/** What a bench calls its things, as the grammar needs it. Pure. */
export function namesOf(bench: Bench): OwnNames {
  const sheets = [...shippedSheets, ...Object.values(bench.sheets)];
  return {
    bottle: liveBottles(bench).map(({ name }) => name.toLowerCase()),
    tank: [
      ...Object.values(bench.runs).map(({ tank }) => tank.toLowerCase()),
      ...Object.keys(bench.tanks),
    ],
    sheet: sheets
      .flatMap(({ name, called }) => [name, ...called])
      .map((name) => name.toLowerCase()),
    thermometer: Object.keys(bench.thermometers),
  };
}
