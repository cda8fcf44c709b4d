import type { Celsius, Instant } from "../units/quantity.ts";
import { type Rate, within } from "./rate.ts";

/** A temperature of the bath at an instant, °C as corrected. */
export type BathReading = {
  readonly at: Instant;
  readonly temperature: Celsius;
};

/** A stretch of the path over which the logarithm of the rate is straight. */
type Leg = {
  /** s; the last leg has no end. */
  readonly length: number;
  readonly startLog: number;
  readonly endLog: number;
};

/**
 * The bath's temperature as the readings tell it: straight between readings, constant before the
 * first and after the last. Since the rate's logarithm is straight in temperature, each leg's
 * integral has a closed form and nothing is stepped through.
 */
export type Path = { readonly legs: readonly Leg[] };

/** Readings in order of time; of two at one instant the later in the list stands. */
export function inOrder(readings: readonly BathReading[]): readonly BathReading[] {
  const sorted = readings.toSorted((a, b) => a.at - b.at);
  return sorted.filter(({ at }, index) => sorted[index + 1]?.at !== at);
}

/**
 * @param readings  none before `start`; all inside the rate's ends; without any the bath stands at
 *   its aim
 */
export function pathOf(readings: readonly BathReading[], rate: Rate, start: Instant): Path {
  const legs: Leg[] = [];
  const log = (temperature: Celsius): number => rate.log(within(temperature, rate));
  let before: BathReading | undefined;
  for (const reading of inOrder(readings)) {
    const from = before ?? { at: start, temperature: reading.temperature };
    legs.push(...legsBetween(from, reading, rate, log));
    before = reading;
  }
  const last = before === undefined ? 0 : log(before.temperature);
  legs.push({ length: Number.POSITIVE_INFINITY, startLog: last, endLog: last });
  return { legs };
}

/** One leg, or several where the rate's slope changes on the way. */
function legsBetween(
  from: BathReading,
  to: BathReading,
  { knots }: Rate,
  log: (temperature: Celsius) => number,
): readonly Leg[] {
  const whole = (to.at - from.at) / 1000;
  if (whole <= 0) return [];
  const low = Math.min(from.temperature, to.temperature);
  const high = Math.max(from.temperature, to.temperature);
  const rising = knots.filter((knot) => knot > low && knot < high);
  const on = from.temperature <= to.temperature ? rising : rising.toReversed();
  const stops = [from.temperature, ...on, to.temperature];
  const change = to.temperature - from.temperature;
  return stops.slice(1).map((stop, index) => {
    const previous = stops[index] ?? stop;
    const share = change === 0 ? 1 : (stop - previous) / change;
    return { length: whole * share, startLog: log(previous), endLog: log(stop) };
  });
}

/**
 * Development done by so many seconds, in seconds at the aim: the integral of rate(T(t)) / rate(aim).
 * On a leg the rate is r e^(gt), whose integral is r (e^(gt) - 1) / g.
 */
export function developed({ legs }: Path, until: number): number {
  let done = 0;
  let left = until;
  for (const leg of legs) {
    if (left <= 0) break;
    const time = Math.min(left, leg.length);
    const grown = growth(leg) * time;
    done += Math.exp(leg.startLog) * time * (grown === 0 ? 1 : Math.expm1(grown) / grown);
    left -= time;
  }
  return done;
}

/** Seconds from the start after which the development done is `amount`, s at the aim: the inverse. */
export function timeUntil(path: Path, amount: number): number {
  let time = 0;
  let left = amount;
  for (const leg of path.legs) {
    const whole = developed({ legs: [leg] }, leg.length);
    if (left > whole) {
      left -= whole;
      time += leg.length;
      continue;
    }
    const atStart = left / Math.exp(leg.startLog);
    const grown = growth(leg) * atStart;
    return time + atStart * (grown === 0 ? 1 : Math.log1p(grown) / grown);
  }
  return time;
}

const growth = ({ length, startLog, endLog }: Leg): number => (endLog - startLog) / length;
