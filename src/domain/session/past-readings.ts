import { inDoubt, type Reread, reread } from "../temperature/reread.ts";
import { offsetOf, type Thermometer, type ThermometerCheck } from "../temperature/thermometer.ts";
import {
  type CelsiusDifference,
  celsius,
  celsiusDifference,
  type Instant,
} from "../units/quantity.ts";
import type { Bench } from "./bench.ts";
import type { ReadingTaken, Run } from "./run.ts";
import { type Touched, touchedBy } from "./touched.ts";

type RunReading = NonNullable<Touched["readings"]>[number] & {
  readonly run: string;
  readonly tank: string;
  readonly title: string;
  readonly plannedAt: Instant;
};

/** Where a bath has no tolerance of its own, °C: a common one for colour developers, our own choice. */
const TOLERANCE: CelsiusDifference = celsiusDifference(0.15);

/** Readings of named thermometers in all runs with film, those in files of their own included. */
function readingsOf(bench: Bench): readonly RunReading[] {
  const runs = [
    ...bench.pastRuns,
    ...Object.values(bench.runs)
      .filter((run) => run.rehearsal === undefined)
      .map((run) => ({ ...run, touched: touchedBy(run) })),
  ];
  return runs.flatMap(({ id, tank, title, plannedAt, touched }) =>
    (touched?.readings ?? []).map((reading) => ({ ...reading, run: id, tank, title, plannedAt })),
  );
}

/** Readings of past and present runs that a new check of their thermometer shows to have been out. */
export const readAnew = (
  bench: Bench,
  thermometer: Thermometer,
  check: ThermometerCheck,
): readonly Reread<RunReading>[] =>
  reread(readingsOf(bench), thermometer, check, TOLERANCE).toSorted(
    (a, b) => a.reading.at - b.reading.at,
  );

/**
 * A run with its readings corrected by a new check of their thermometer, made while it goes on; the
 * run itself where none is in doubt. What was shown stays as it was shown.
 */
export function correctedAnew(run: Run, thermometer: Thermometer, check: ThermometerCheck): Run {
  const doubt = inDoubt(thermometer, check);
  const offset = offsetOf(check);
  const readings = run.readings.map((reading): ReadingTaken => {
    const read = reading.read ?? reading.temperature;
    if (!doubt({ at: reading.at, thermometer: reading.thermometer, read })) return reading;
    const { unverified: _, ...known } = reading;
    return { ...known, read, temperature: celsius(read - offset) };
  });
  const same = readings.every((reading, index) => reading === run.readings[index]);
  return same ? run : { ...run, readings };
}
