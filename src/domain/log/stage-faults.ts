import { filmReadings } from "../session/film-readings.ts";
import type { ReadingTaken, Run, Stage } from "../session/run.ts";
import type { Fault } from "./wanted.ts";

export type StageFault = { readonly bath: string; readonly kind: string; readonly fault: Fault };

/** As in the summary: a hand is slower than a clock, s (common practice, no source). */
const WORTH_SAYING = 5;

/** What went otherwise than planned, bath by bath, without words: thousands of runs are asked. */
export function stageFaults(run: Run): readonly StageFault[] {
  return run.stages.flatMap((stage, index) => {
    const { bath, kind } = stage;
    return faultsOf(stage, filmReadings(run, index)).map((fault) => ({ bath, kind, fault }));
  });
}

function faultsOf(stage: Stage, readings: readonly ReadingTaken[]): readonly Fault[] {
  const found: Fault[] = [];
  if (stage.skipped === true) found.push("skipped");
  if (stage.plusMinus !== undefined || stage.outByClock === true) found.push("assumed");
  if (stage.outByClock !== true && stage.inAt !== undefined && stage.outAt !== undefined) {
    const off = (stage.outAt - stage.inAt) / 1000 - stage.time;
    // "out" may be said as the pouring out begins: the drain lies inside the time.
    if (off < -stage.drain - 1) found.push("short");
    else if (stage.sense === "exact" && off > WORTH_SAYING) found.push("long");
  }
  const { temperature: aim, tolerance } = stage;
  if (aim !== undefined && tolerance !== undefined) {
    const edge = tolerance + 1e-9;
    if (readings.some(({ temperature }) => temperature - aim > edge)) found.push("warm");
    if (readings.some(({ temperature }) => aim - temperature > edge)) found.push("cold");
  }
  return found;
}
