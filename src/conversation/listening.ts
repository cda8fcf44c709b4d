import { shippedSheets } from "../data/sheets.ts";
import { rollNames } from "../domain/film/roll-names.ts";
import { oncePer } from "../domain/once-per.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Listening } from "../language/reader.ts";

/** The names and habits of a bench, as the readers need them. */
export function listeningOf(bench: Bench, now: Instant): Listening {
  return {
    now,
    zone: bench.zone,
    // A taught sheet answered this for its own paper; the bench's own answer outranks it.
    country: bench.country ?? ownValue(bench.sheets, bench.sheetInUse ?? "")?.country,
    degrees: bench.degrees,
    names: {
      bottle: bottles(bench.bottles),
      sheet: sheets(bench.sheets),
      tank: tanks(bench.pastRuns, bench.runs),
    },
    rolls: rolls(bench.rolls),
  };
}

type Names = ReadonlyMap<string, string>;

/** Bottles in use; a change of contents or count gives a new collection but the same names. */
const bottles = oncePer((all: Bench["bottles"]): Names => {
  const names = Object.values(all)
    .filter(({ retiredOn }) => retiredOn === undefined)
    .map(({ id, name }) => [name.toLowerCase(), id] as const);
  return new Map(names);
});

const sheets = oncePer((taught: Bench["sheets"]): Names => {
  const names = [...shippedSheets, ...Object.values(taught)].flatMap(({ id, name, called }) =>
    [...called, name].map((word) => [word.toLowerCase(), id] as const),
  );
  return new Map(names);
});

/** Of runs in files too: their record may be asked for. As it is written now, where both know it. */
const tanks = oncePer(
  (past: Bench["pastRuns"], runs: Bench["runs"]): Names =>
    new Map([...past, ...Object.values(runs)].map(({ tank }) => [tank.toLowerCase(), tank])),
);

const rolls = oncePer((all: Bench["rolls"]) => rollNames(Object.values(all)));
