import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsiusDifference,
  type Instant,
  later,
  type Seconds,
  seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import { checkTemperatures } from "./bath-temperature.ts";
import { type BathReading, developed, inOrder, pathOf, timeUntil } from "./path.ts";
import { beyond, exponential, PUBLISHED_SPREAD, type Rate, rateAbout } from "./rate.ts";
import { explainTime, type TimeError } from "./time-from-temperature.ts";
import { isTime, type TimeLaw } from "./time-law.ts";

/** A stage whose time is exact, as it was meant before anything drifted. */
export type DriftStage = {
  /** The tank was full: the time counts from here. */
  readonly start: Instant;
  /** s at the aim, with re-use and push; not a time drift has already changed. */
  readonly time: Seconds;
  /** s on the plan now, where drift has already changed it; missing: `time`. */
  readonly planned?: Seconds | undefined;
  readonly aim: Celsius;
  /** Pouring out, s, inside the time. */
  readonly drain: Seconds;
  /** Film has left the bath: nothing can be changed any more. */
  readonly out?: Instant | undefined;
};

export type Drift = {
  /** Development by `now` (by `out`, once it is out), in seconds at the aim. */
  readonly done: Seconds;
  /** s from the start at which the development is what was meant; the pour-out is never before `now`. */
  readonly time: Seconds;
  /** Start and end of pouring out at that time. */
  readonly pourOut: Instant;
  readonly end: Instant;
  /** `time` less what is planned, s. */
  readonly change: Seconds;
  /** The right moment is past: out as soon as it can be. */
  readonly overdone: boolean;
  /** What keeping to the plan is worth: development at the planned end less what was meant, in
   * seconds at the aim and in percent of them; above 0 is too much. */
  readonly error: Seconds;
  readonly percent: number;
  /** The reading furthest from the aim, and the latest one, less the aim; 0 without readings. */
  readonly worst: CelsiusDifference;
  readonly latest: CelsiusDifference;
};

export type DriftError =
  | TimeError
  | { readonly kind: "bad-drain"; readonly drain: number; readonly time: Seconds }
  | { readonly kind: "no-instant" }
  | { readonly kind: "before-pour"; readonly reading: BathReading; readonly by: Seconds }
  | { readonly kind: "after-pour-out"; readonly reading: BathReading; readonly by: Seconds }
  | { readonly kind: "in-the-future"; readonly reading: BathReading; readonly by: Seconds };

/**
 * What a bath off its aim has done, and when the film should be out: development is the integral
 * of rate(T(t)) and is complete when it equals rate(aim) × time. (No published rule for a tank
 * that drifts was found; this is the rate law applied to every second.)
 *
 * What holds for drift that averages to the aim over the bath: the error of first order in the
 * departure is exactly zero with a coefficient. What is left is of second order and never
 * negative: at most cosh(d ln(Q10) / 10) - 1 of the time for departures up to d °C, that is 0.3 %
 * for 0.5 °C at the fastest published factor of 4. A table whose slope changes at the aim has no
 * such law: there half the difference of the slopes is left.
 *
 * @param readings  of this stage, corrected, in any order; a late one simply takes its place
 * @param now       an instant at or after every reading
 * @returns the drift; `outside-law` where a reading lies beyond the table or the coefficient's
 *   reach, `before-pour`, `after-pour-out`, `in-the-future` with the reading, `bad-drain`, or an
 *   error of time and law
 */
export function driftOf(
  stage: DriftStage,
  law: TimeLaw,
  readings: readonly BathReading[],
  now: Instant,
): Result<Drift, DriftError> {
  const wrong = checkStage(stage, readings, now);
  if (wrong) return err(wrong);
  const rate = rateAbout(stage.aim, law);
  return rate.ok ? drifted(stage, rate.value, readings, now) : rate;
}

/** The same where the developer's coefficient is not known: at both ends of the published spread. */
export function driftSpread(
  stage: DriftStage,
  readings: readonly BathReading[],
  now: Instant,
): Result<{ readonly slow: Drift; readonly fast: Drift }, DriftError> {
  const wrong = checkStage(stage, readings, now);
  if (wrong) return err(wrong);
  const { low, high } = PUBLISHED_SPREAD;
  const slow = drifted(stage, exponential(stage.aim, low), readings, now);
  if (!slow.ok) return slow;
  const fast = drifted(stage, exponential(stage.aim, high), readings, now);
  return fast.ok ? ok({ slow: slow.value, fast: fast.value }) : fast;
}

function drifted(
  stage: DriftStage,
  rate: Rate,
  readings: readonly BathReading[],
  now: Instant,
): Result<Drift, DriftError> {
  const { start, time, aim, drain, out, planned = time } = stage;
  const ordered = inOrder(readings);
  for (const { temperature } of ordered) {
    const outside = beyond("bath", temperature, rate);
    if (outside) return err(outside);
  }
  const path = pathOf(ordered, rate, start);
  const complete = timeUntil(path, time);
  const elapsed = Math.max(0, secondsBetween(start, out ?? now));
  const end = out === undefined ? notBefore(stage, now, complete) : seconds(complete);
  const leaves = out === undefined ? Math.max(planned, elapsed) : elapsed;
  const error = developed(path, leaves) - time;
  const off = ordered.map(({ temperature }) => temperature - aim);
  const worst = off.reduce((far, one) => (Math.abs(one) > Math.abs(far) ? one : far), 0);
  return ok({
    done: seconds(developed(path, elapsed)),
    time: end,
    pourOut: later(start, end - drain),
    end: later(start, end),
    change: seconds(end - planned),
    overdone: end !== complete,
    error: seconds(error),
    percent: (100 * error) / time,
    worst: celsiusDifference(worst),
    latest: celsiusDifference(off.at(-1) ?? 0),
  });
}

/**
 * A time whose pour-out is not in the past: the wanted one, or pouring out now, or, once pouring
 * out has begun, the plan as it is.
 *
 * @param wanted  s from the start
 */
export function notBefore(
  { start, time, planned = time, drain }: DriftStage,
  now: Instant,
  wanted: number,
): Seconds {
  const soonest = now > start ? secondsBetween(start, now) + drain : 0;
  if (wanted >= soonest) return seconds(wanted);
  return seconds(soonest > planned ? planned : soonest);
}

function checkStage(
  { start, time, planned = time, aim, drain, out }: DriftStage,
  readings: readonly BathReading[],
  now: Instant,
): DriftError | undefined {
  for (const length of [time, planned]) {
    if (!isTime(length)) return { kind: "no-time", time: length };
  }
  if (!(drain >= 0 && drain < time)) return { kind: "bad-drain", drain, time };
  const impossible = checkTemperatures({ aim });
  if (impossible) return impossible;
  for (const reading of readings) {
    const cannot = checkTemperatures({ bath: reading.temperature });
    if (cannot) return cannot;
    if (!Number.isFinite(reading.at)) return { kind: "no-instant" };
    if (reading.at < start) {
      return { kind: "before-pour", reading, by: secondsBetween(reading.at, start) };
    }
    if (out !== undefined && reading.at > out) {
      return { kind: "after-pour-out", reading, by: secondsBetween(out, reading.at) };
    }
    if (reading.at > now) {
      return { kind: "in-the-future", reading, by: secondsBetween(now, reading.at) };
    }
  }
  return undefined;
}

export function explainDrift(error: DriftError): string {
  switch (error.kind) {
    case "bad-drain":
      return `Pouring out has to be shorter than the bath itself, which lasts ${showDuration(error.time)}.`;
    case "no-instant":
      return "I need to know when that was read: say when.";
    case "before-pour":
      return `That reading is from ${showDuration(error.by)} before this bath was in: say which bath it was.`;
    case "after-pour-out":
      return `That reading is from ${showDuration(error.by)} after this bath was out: say which bath it was.`;
    case "in-the-future":
      return `That reading would be ${showDuration(error.by)} from now: say when you read it.`;
    default:
      return explainTime(error);
  }
}
