import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { readAnew } from "../domain/session/past-readings.ts";
import { isLive } from "../domain/session/run.ts";
import { clockMinute, dateOf, isoInstant, showDate } from "../domain/timing/clock-text.ts";
import { celsiusDifference } from "../domain/units/quantity.ts";
import { plain, showDifference } from "../domain/units/show.ts";
import type { Json } from "../reply/reply.ts";
import { LOOK_AT_THEM } from "./recall-list.ts";

/** More lines than this say nothing more; the values hold them all. */
const MOST_LINES = 20;

/** Past readings that a new offset shows to have been out, listed like a recall. */
export function showReread(
  bench: Bench,
  found: ReturnType<typeof readAnew>,
): { readonly lines: readonly string[]; readonly rows: Json } {
  const rows: Json = found.map(({ reading, now, out }) => ({
    run: reading.run,
    tank: reading.tank,
    bath: reading.bath,
    at: isoInstant(reading.at),
    read_c: reading.read,
    now_c: now,
    out_c: out,
  }));
  if (found.length === 0) return { lines: [], rows };
  const runs = new Set(found.map(({ reading }) => reading.run)).size;
  const lines = found.slice(0, MOST_LINES).map(({ reading, now, out }) => {
    const when = `${showDate(dateOf(reading.at, bench.zone))}, ${clockMinute(reading.at, bench.zone)}`;
    const off = showDifference(celsiusDifference(Math.abs(out)));
    const from = reading.aim === undefined ? "off what it was taken for" : "off its aim";
    return `- ${when}, ${reading.tank}, ${reading.bath}: read ${plain(reading.read, 1)}, really ${plain(now, 1)} °C, ${off} ${from}`;
  });
  return {
    rows,
    lines: [
      `Read anew, ${runs} run${runs === 1 ? " was" : "s were"} out:`,
      ...lines,
      ...(found.length > MOST_LINES ? [`... and ${found.length - MOST_LINES} more.`] : []),
      // Film that is still wet is looked at later.
      ...(found.every(({ reading }) => isOpen(bench, reading.run)) ? [] : [LOOK_AT_THEM]),
    ],
  };
}

const isOpen = (bench: Bench, id: string): boolean => {
  const run = ownValue(bench.runs, id);
  return run !== undefined && isLive(run);
};
