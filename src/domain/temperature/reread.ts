import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  celsiusDifference,
  type Instant,
} from "../units/quantity.ts";
import {
  CHECK_LIMITS,
  type CheckLimits,
  offsetOf,
  type Thermometer,
  type ThermometerCheck,
} from "./thermometer.ts";

/** A reading of some past run, as it was taken for true then. */
export type PastReading = {
  readonly at: Instant;
  readonly thermometer?: string | undefined;
  /** As shown, °C. */
  readonly read: Celsius;
  /** As corrected then, °C. */
  readonly corrected: Celsius;
  /** What the bath should have been, °C, and give or take how much. */
  readonly aim?: Celsius | undefined;
  readonly tolerance?: CelsiusDifference | undefined;
};

export type Reread<R extends PastReading> = {
  readonly reading: R;
  /** What it is taken for now, °C. */
  readonly now: Celsius;
  /** `now` less what it was taken for then, °C. */
  readonly changed: CelsiusDifference;
  /** Off the aim, °C; off the reading of then, where no aim is known. */
  readonly out: CelsiusDifference;
};

/**
 * The past readings that a new check shows to have been out: off their aim by more than the
 * tolerance, and, where no aim is known, off what they were taken for. Only readings of this
 * thermometer, near enough in temperature, and since it was last checked there are in doubt:
 * what an earlier check covered is left alone.
 *
 * @param readings    of any thermometers and runs, in any order
 * @param thermometer with the checks it had before
 * @param check       the new one
 * @param tolerance   °C, where a reading has none of its own
 */
export function reread<R extends PastReading>(
  readings: readonly R[],
  thermometer: Thermometer,
  check: ThermometerCheck,
  tolerance: CelsiusDifference,
  limits: CheckLimits = CHECK_LIMITS,
): readonly Reread<R>[] {
  const doubt = inDoubt(thermometer, check, limits);
  const offset = offsetOf(check);
  return readings
    .filter(doubt)
    .map((reading) => {
      const now = celsius(reading.read - offset);
      return {
        reading,
        now,
        changed: celsiusDifference(now - reading.corrected),
        out: celsiusDifference(now - (reading.aim ?? reading.corrected)),
      };
    })
    .filter(({ reading, out }) => Math.abs(out) > (reading.tolerance ?? tolerance) + 1e-9);
}

/** Is a reading one that a new check of this thermometer speaks of? */
export function inDoubt(
  { name, checks }: Thermometer,
  check: ThermometerCheck,
  limits: CheckLimits = CHECK_LIMITS,
): (reading: Pick<PastReading, "at" | "thermometer" | "read">) => boolean {
  const reaches = (read: Celsius): boolean => Math.abs(read - check.read) <= limits.reach + 1e-9;
  const since = checks
    .filter((earlier) => earlier.at < check.at && reaches(earlier.read))
    .reduce((latest, { at }) => Math.max(latest, at), Number.NEGATIVE_INFINITY);
  return ({ at, thermometer, read }) =>
    thermometer === name && at > since && at <= check.at && reaches(read);
}
