import {
  type Celsius,
  type Instant,
  type Seconds,
  seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";
import { filmReadings } from "./film-readings.ts";
import type { ReadingTaken, Run, Stage } from "./run.ts";

/** One stage as planned and as it was. Times in s; `real` is missing while it goes on. */
export type StageRecord = {
  readonly bath: string;
  readonly sense: Stage["sense"];
  readonly planned: Seconds;
  /** As it was before drift moved it; missing where nothing did. */
  readonly meant: Seconds | undefined;
  readonly start: Instant | undefined;
  readonly end: Instant | undefined;
  readonly real: Seconds | undefined;
  readonly plusMinus: Seconds | undefined;
  readonly outByClock: boolean;
  readonly skipped: boolean;
  readonly aim: Celsius | undefined;
  readonly readings: readonly ReadingTaken[];
  readonly deviations: readonly string[];
};

/** A hand is slower than a clock: differences below this are not worth a word (common practice, no source). */
const WORTH_SAYING = 5;

export function stageRecords(run: Run): readonly StageRecord[] {
  return run.stages.map((stage, index) => {
    const real =
      stage.inAt !== undefined && stage.outAt !== undefined
        ? secondsBetween(stage.inAt, stage.outAt)
        : undefined;
    const readings = run.readings.filter((reading) => reading.stage === index);
    return {
      bath: stage.bath,
      sense: stage.sense,
      planned: stage.time,
      meant: stage.timeMeant,
      start: stage.inAt,
      end: stage.outAt,
      real,
      plusMinus: stage.plusMinus,
      outByClock: stage.outByClock === true,
      skipped: stage.skipped === true,
      aim: stage.temperature,
      readings,
      deviations: deviationsOf(stage, real, filmReadings(run, index)),
    };
  });
}

function deviationsOf(
  stage: Stage,
  real: Seconds | undefined,
  readings: readonly ReadingTaken[],
): readonly string[] {
  const found: string[] = [];
  if (stage.skipped === true) found.push(`${stage.bath} was skipped`);
  if (stage.plusMinus !== undefined) {
    found.push(`${stage.bath}: "in" was not heard, start assumed, ±${plain(stage.plusMinus, 0)} s`);
  }
  if (stage.outByClock === true)
    found.push(`${stage.bath}: "out" was not heard, planned end taken`);
  else if (real !== undefined) {
    const off = real - stage.time;
    // "out" may be said as the pouring out begins: the drain lies inside the time.
    const short = off < -stage.drain - 1;
    const matters = short || (stage.sense === "exact" && off > WORTH_SAYING);
    if (matters) {
      const word = off > 0 ? "longer" : "shorter";
      found.push(
        `${stage.bath}: ${showDuration(seconds(Math.abs(off)))} ${word} than planned` +
          (stage.sense === "at least" ? ", and its time is a minimum" : ""),
      );
    }
  }
  if (stage.temperature !== undefined && stage.tolerance !== undefined) {
    for (const reading of readings) {
      const off = reading.temperature - stage.temperature;
      // On the edge of the band is inside it, whatever the last binary digit says.
      if (Math.abs(off) > stage.tolerance + 1e-9) {
        found.push(
          `${stage.bath}: read ${plain(reading.temperature, 1)} °C, ${plain(Math.abs(off), 1)} °C ` +
            `${off > 0 ? "above" : "below"} ${plain(stage.temperature, 1)} °C (±${plain(stage.tolerance, 2)} °C)`,
        );
      }
    }
  }
  return found;
}
