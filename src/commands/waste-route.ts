import { disposalRoute } from "../data/disposal.ts";
import type { Bench } from "../domain/session/bench.ts";

export type WasteRoute = {
  /** In a few words, for the record. */
  readonly route: string;
  readonly text: string;
  readonly source: string;
};

export type Drain = NonNullable<NonNullable<Bench["waste"]>["drain"]>;

/** Where a used bath may go: what the household was told first, then what is published. */
export function wasteRoute(bench: Bench, bath: string, drain: Drain): WasteRoute {
  if (bench.waste?.collected?.includes(bath) === true) {
    return {
      route: "the council's collection",
      text: `Your council collects used ${bath}. Labelled waste bottle, never a drink bottle.`,
      source: "you said so",
    };
  }
  const found = disposalRoute(bath, drain);
  if (found === undefined) throw new Error("no route for any bath");
  return found;
}

/** The answers to "sewer or septic?". */
export const drainOptions = [
  { word: "sewer", value: "sewer" },
  { word: "septic", value: "septic" },
  { word: "I do not know", value: "unknown" },
];

export const withDrain = (bench: Bench, drain: Drain | undefined): Bench =>
  drain === undefined ? bench : { ...bench, waste: { ...bench.waste, drain } };

/** The route in the record of a bottle that was retired before anybody said where the drain goes. */
export const OPEN_ROUTE = "not told yet";

/** The records that wait for the drain, closed by it, and what to say of each. */
export function closeRoutes(
  bench: Bench,
  drain: Drain,
): { readonly bench: Bench; readonly lines: readonly string[] } {
  const lines: string[] = [];
  let { bottles } = bench;
  for (const bottle of Object.values(bottles)) {
    const { retired } = bottle;
    if (retired?.route !== OPEN_ROUTE) continue;
    const { route, text } = wasteRoute(bench, bottle.bath, drain);
    lines.push(`${bottle.name}, ${bottle.bath}: ${text}`);
    bottles = { ...bottles, [bottle.id]: { ...bottle, retired: { ...retired, route } } };
  }
  return { bench: lines.length === 0 ? bench : { ...bench, bottles }, lines };
}
