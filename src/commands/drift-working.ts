import { showOrigin } from "../domain/origin.ts";
import type { Result } from "../domain/result.ts";
import type { Bench } from "../domain/session/bench.ts";
import { driftStage } from "../domain/session/drift-run.ts";
import type { ReadingTaken, Run } from "../domain/session/run.ts";
import type { Settled } from "../domain/temperature/compensate.ts";
import type { DriftError } from "../domain/temperature/drift.ts";
import { exponential, PUBLISHED_SPREAD, type Rate, rateAbout } from "../domain/temperature/rate.ts";
import { q10FromK7, type TimeLaw } from "../domain/temperature/time-law.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import type { Celsius } from "../domain/units/quantity.ts";
import { plain, showCelsius, showDuration } from "../domain/units/show.ts";
import { sizeWords } from "./drift-words.ts";

/** More readings than this are no working any more; the summary has them all. */
const MOST_READINGS = 12;

/** The working of a drift for `why`: what went in, the law and its rates, and what came out. */
export function driftWorking(
  bench: Bench,
  run: Run,
  index: number,
  weighed: Result<Settled, DriftError>,
): readonly string[] {
  const stage = run.stages[index];
  const drift = driftStage(run, index);
  if (stage === undefined || drift === undefined) return [];
  const { aim, time, planned = time } = drift;
  const rates = ratesAt(aim, stage.timeLaw);
  const readings = run.readings
    .filter((reading) => reading.stage === index && reading.at >= drift.start)
    .toSorted((a, b) => a.at - b.at);
  const left = readings.length - MOST_READINGS;
  return [
    `Law: ${lawWords(stage.timeLaw)}.`,
    `Meant: ${showDuration(time)} of development at ${showCelsius(aim)}, where the rate is 1; time ${showOrigin(stage.timeOrigin)}${stage.temperatureOrigin === undefined ? "" : `; temperature ${showOrigin(stage.temperatureOrigin)}`}.`,
    ...(left > 0 ? [`${left} earlier readings left out here; they count all the same.`] : []),
    ...readings.slice(-MOST_READINGS).map((reading) => readingLine(bench, reading, rates)),
    "Between readings the temperature is taken as straight, before the first and after the last as constant.",
    "Development is the rate at each temperature, added up over the time; it is complete at the time meant.",
    ...(weighed.ok
      ? [
          ...doneLine(weighed.value),
          `Kept to ${showDuration(planned)} it is ${sizeWords(weighed.value.size)}.`,
        ]
      : []),
  ];
}

/** With a law the spread's two ends are one. */
const doneLine = ({ size, drift }: Settled): readonly string[] =>
  size.estimate
    ? []
    : [
        `Done by then: ${plain(drift.done, 1)} s at the aim; complete at ${plain(drift.time, 1)} s of the clock.`,
      ];

function readingLine(
  { zone }: Bench,
  { at, temperature, read, thermometer }: ReadingTaken,
  rates: readonly Rate[],
): string {
  const shown =
    read === undefined || Math.abs(read - temperature) < 1e-9
      ? ""
      : ` (shown ${plain(read, 1)} on ${thermometer ?? "it"})`;
  const inside = rates.every(({ from, to }) => temperature >= from && temperature <= to);
  const factors = [
    ...new Set(rates.map(({ log }) => (inside ? plain(Math.exp(log(temperature)), 3) : ""))),
  ];
  const rate = inside ? `rate ${factors.join(" to ")}` : "outside the law, no rate";
  return `${clockTime(at, zone)}  ${plain(temperature, 2)} °C${shown}: ${rate}`;
}

function ratesAt(aim: Celsius, law: TimeLaw | undefined): readonly Rate[] {
  if (law === undefined) {
    const { low, high } = PUBLISHED_SPREAD;
    return [exponential(aim, low), exponential(aim, high)];
  }
  const rate = rateAbout(aim, law);
  return rate.ok ? [rate.value] : [];
}

function lawWords(law: TimeLaw | undefined): string {
  if (law === undefined) {
    const { low, high, origin } = PUBLISHED_SPREAD;
    return `not known for this developer; published ones give ${low} to ${high} times the rate for 10 °C, so this is an estimate; ${showOrigin(origin)}`;
  }
  const origin = showOrigin(law.origin);
  if (law.kind !== "table") {
    const q10 = law.kind === "q10" ? law.q10 : q10FromK7(law.k7);
    return `${plain(q10, 2)} times the rate for 10 °C; ${origin}`;
  }
  const rows = law.rows.map(({ at, time }) => `${showCelsius(at)} ${showDuration(time)}`);
  return `times ${rows.join(", ")}, straight in the logarithm between them; ${origin}`;
}
