import { type Origin, showOrigin } from "../origin.ts";
import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsiusDifference,
  type Seconds,
  seconds,
} from "../units/quantity.ts";
import { plain, showCelsius, showDifference, showDuration } from "../units/show.ts";
import { checkTemperatures } from "./bath-temperature.ts";
import {
  beyond,
  explainRate,
  exponential,
  PUBLISHED_SPREAD,
  type Rate,
  type RateError,
  rateAbout,
  within,
} from "./rate.ts";
import { isTime, q10FromK7, type TimeLaw } from "./time-law.ts";

export type TimeError = RateError | { readonly kind: "no-time"; readonly time: number };

/** A time, or a range where the developer's coefficient is not known. `how` is for `why`. */
export type TimeAnswer =
  | {
      readonly kind: "time";
      readonly time: Seconds;
      readonly how: string;
      readonly origin: Origin;
    }
  | {
      readonly kind: "estimate";
      /** s, the shorter end first. */
      readonly from: Seconds;
      readonly to: Seconds;
      readonly how: string;
      readonly origin: Origin;
    };

/**
 * The time a developer needs at another temperature than its aim.
 *
 * @param time  what it needs at the aim, s, above 0: the sheet's, or the sheet's corrected
 * @param aim   °C
 * @param at    °C of the bath
 * @param law   the sheet's table or coefficient; none gives a range from the published spread
 * @returns s, unrounded; `no-time`, `impossible-temperature`, `outside-law` with the ends, or what
 *   is wrong with the law
 */
export function timeAt(
  time: Seconds,
  aim: Celsius,
  at: Celsius,
  law: TimeLaw | undefined,
): Result<TimeAnswer, TimeError> {
  if (!isTime(time)) return err({ kind: "no-time", time });
  const wrong = checkTemperatures({ aim, bath: at });
  if (wrong) return err(wrong);
  const off = celsiusDifference(at - aim);
  if (law === undefined) return estimated(time, aim, at, off);
  const rate = rateAbout(aim, law);
  if (!rate.ok) return rate;
  const scaled = scale(time, at, rate.value);
  if (!scaled.ok) return scaled;
  return ok({
    kind: "time",
    time: scaled.value,
    how: `${sayOff(off)}: ${showDuration(time)} × ${plain(scaled.value / time, 3)}; ${sayLaw(law)}; ${showOrigin(law.origin)}`,
    origin: law.origin,
  });
}

function estimated(
  time: Seconds,
  aim: Celsius,
  at: Celsius,
  off: CelsiusDifference,
): Result<TimeAnswer, TimeError> {
  const { low, high, origin } = PUBLISHED_SPREAD;
  const slow = scale(time, at, exponential(aim, low));
  const fast = scale(time, at, exponential(aim, high));
  if (!slow.ok) return slow;
  if (!fast.ok) return fast;
  return ok({
    kind: "estimate",
    from: seconds(Math.min(slow.value, fast.value)),
    to: seconds(Math.max(slow.value, fast.value)),
    how: `estimate, ${sayOff(off)}: this developer's coefficient is not known, published ones are ${low} to ${high} for 10 °C; ${showOrigin(origin)}`,
    origin,
  });
}

function scale(time: Seconds, at: Celsius, rate: Rate): Result<Seconds, TimeError> {
  const outside = beyond("bath", at, rate);
  if (outside) return err(outside);
  return ok(seconds(time * Math.exp(-rate.log(within(at, rate)))));
}

/**
 * The time a table gives for a temperature, log-linear between rows. A sheet with a table can be
 * planned at any temperature inside it this way, with no correction at all.
 */
export function tableTime(
  law: Extract<TimeLaw, { kind: "table" }>,
  at: Celsius,
): Result<Seconds, TimeError> {
  const [row] = law.rows;
  if (row === undefined) return err({ kind: "too-few-rows", rows: 0 });
  const answer = timeAt(row.time, row.at, at, law);
  if (!answer.ok) return answer;
  if (answer.value.kind !== "time") throw new Error("a table gives a time");
  return ok(answer.value.time);
}

const sayOff = (off: CelsiusDifference): string =>
  Math.abs(off) < 0.005
    ? "at the aim"
    : `${showDifference(celsiusDifference(Math.abs(off)))} ${off > 0 ? "above" : "below"} the aim`;

function sayLaw(law: TimeLaw): string {
  switch (law.kind) {
    case "table": {
      const ends = law.rows.map(({ at }) => at).toSorted((a, b) => a - b);
      const [first] = ends;
      const last = ends.at(-1);
      return first === undefined || last === undefined
        ? "table"
        : `table from ${showCelsius(first)} to ${showCelsius(last)}`;
    }
    case "q10":
      return `factor ${plain(law.q10, 2)} for 10 °C`;
    case "k7":
      return `factor ${plain(law.k7, 2)} for 7 °C, ${plain(q10FromK7(law.k7), 2)} for 10 °C`;
  }
}

export function explainTime(error: TimeError): string {
  return error.kind === "no-time"
    ? "I need the developer's time at its own temperature before I can work out another."
    : explainRate(error);
}
