import { setImmediate as nextTurn } from "node:timers/promises";
import type { BenchRecord } from "../conversation/record.ts";
import type { Manifest } from "./contents.ts";

/** What stands of a bench in one file, and what the first page says of it. */
export type Outline = {
  /** Its record as JSON, in pieces. */
  readonly texts: readonly string[];
  readonly bench: string;
  /** Of archived runs. */
  readonly ids: readonly string[];
  readonly counts: Omit<Manifest["counts"], "archived" | "pictures">;
};

/** Entries of past runs are put in words so many at a time. */
const SLICE = 250;

/** The outline of a bench as it stands; between slices of a long one, others have their turn. */
export async function outlineOf({ bench: whole, ...talk }: BenchRecord): Promise<Outline> {
  const { pastRuns, ...bench } = whole;
  const begun = `${open(talk)},"bench":${open(bench)},"pastRuns":[`;
  const texts = [begun];
  for (let from = 0; from < pastRuns.length; from += SLICE) {
    if (from > 0) {
      await nextTurn();
      texts.push(",");
    }
    texts.push(JSON.stringify(pastRuns.slice(from, from + SLICE)).slice(1, -1));
  }
  texts.push("]}}");
  return {
    texts,
    bench: bench.name,
    ids: pastRuns.map(({ id }) => id),
    counts: {
      runs: Object.keys(bench.runs).length + pastRuns.length,
      bottles: Object.keys(bench.bottles).length,
      sheets: Object.keys(bench.sheets).length,
      rolls: Object.keys(bench.rolls).length,
      reminders: Object.keys(bench.reminders).length,
    },
  };
}

/** An object that has fields as JSON, up to where another field would stand. */
const open = (fields: object): string => JSON.stringify(fields).slice(0, -1);
