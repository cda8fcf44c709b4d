import { filmUnits } from "../film/load.ts";
import { units } from "../units/quantity.ts";
import type { Bench } from "./bench.ts";

/**
 * Adds a run's film to each bottle it has really been poured from, once per run: film counts when
 * "in" was heard or assumed, never when it was only planned. Doing it twice changes nothing.
 */
export function countFilm(bench: Bench, runId: string): Bench {
  const run = bench.runs[runId];
  if (run === undefined) return bench;
  const load = filmUnits(run.film);
  let bottles = bench.bottles;
  const counted = [...run.counted];
  for (const stage of run.stages) {
    const id = stage.bottle;
    if (id === undefined || stage.inAt === undefined || load === 0) continue;
    const bottle = bottles[id];
    if (bottle === undefined || counted.some((entry) => entry.bottle === id)) continue;
    const after = units(bottle.used + load);
    counted.push({ bottle: id, before: bottle.used, after });
    bottles = { ...bottles, [id]: { ...bottle, used: after } };
  }
  if (counted.length === run.counted.length) return bench;
  return { ...bench, bottles, runs: { ...bench.runs, [runId]: { ...run, counted } } };
}
