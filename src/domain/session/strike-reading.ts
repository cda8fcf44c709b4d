import type { Instant } from "../units/quantity.ts";
import { plain } from "../units/show.ts";
import { noted } from "./drift-run.ts";
import { type ReadingTaken, type Run, withStage } from "./run.ts";

/**
 * The run without a reading, with a note of it. Where it was the one furthest off, what was decided
 * about the departure is open again.
 */
export function struck(run: Run, reading: ReadingTaken, now: Instant): Run {
  const { stage: index, bath, temperature } = reading;
  const without = { ...run, readings: run.readings.filter((one) => one !== reading) };
  const stage = run.stages[index];
  const off = stage?.driftAnswer?.off;
  const decided =
    stage?.temperature !== undefined &&
    off !== undefined &&
    Math.abs(temperature - stage.temperature) >= Math.abs(off) - 1e-9;
  const open = decided ? withStage(without, index, { driftAnswer: undefined }) : without;
  return noted(open, now, `struck a reading of the ${bath}: ${plain(temperature, 2)} °C`);
}
