import { fromFahrenheit } from "../units/conversions.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsiusDifference,
  type Seconds,
  secondsBetween,
} from "../units/quantity.ts";
import { plain, showCelsius, showDifference, showDuration } from "../units/show.ts";
import { FAR } from "./bath-temperature.ts";
import { type BathReading, inOrder } from "./path.ts";

/** A tank of some hundred mL does not move faster, °C a minute: our own bound, no source. */
export const FASTEST = 2;
/** Two readings may differ by this at once, °C: stirring and the eye; our own bound. */
export const UNSTEADY = celsiusDifference(0.5);

/**
 * How far the first reading of a bath may be off, °C, before it is asked about: ten times the band,
 * at least 1.5 °C. A tank loses no more in a pour, and a slip of two digits is further off; our own
 * bound, no source.
 */
const firstFar = (tolerance: CelsiusDifference | undefined): number =>
  tolerance === undefined ? FAR : Math.min(FAR, Math.max(1.5, tolerance * 10));

/** A reading that is asked about before it is believed. */
export type ReadingQuestion =
  | {
      readonly kind: "far-from-aim";
      readonly reading: BathReading;
      readonly aim: Celsius;
      /** What it is in °C if °F was read, where that is nearer the aim. */
      readonly meant?: Celsius | undefined;
    }
  | {
      readonly kind: "jump";
      readonly reading: BathReading;
      /** The reading beside it that it does not fit. */
      readonly beside: BathReading;
      readonly between: Seconds;
      /** The most that is believed in that time, °C. */
      readonly allowed: CelsiusDifference;
    };

/**
 * Whether a reading must be asked about: too far from the aim, or a jump from the reading
 * before or after it that no tank makes. One at the same instant as another replaces it.
 *
 * @param reading  corrected, °C
 * @param earlier    the stage's readings so far, in any order; some may be later than a late one
 * @param tolerance  half width of the sheet's band; a first reading is held against it
 */
export function questionReading(
  reading: BathReading,
  earlier: readonly BathReading[],
  aim: Celsius,
  tolerance?: CelsiusDifference,
): ReadingQuestion | undefined {
  const { at, temperature } = reading;
  const fahrenheit = fromFahrenheit(temperature);
  const meant = Math.abs(fahrenheit - aim) < Math.abs(temperature - aim) ? fahrenheit : undefined;
  const others = inOrder(earlier).filter((other) => other.at !== at);
  const far = others.length === 0 ? firstFar(tolerance) : FAR;
  if (Math.abs(temperature - aim) > far + 1e-9)
    return { kind: "far-from-aim", reading, aim, meant };

  const before = others.findLast((other) => other.at < at);
  const after = others.find((other) => other.at > at);
  for (const beside of [before, after]) {
    if (beside === undefined) continue;
    const gap = gapBetween(beside, reading);
    if (Math.abs(temperature - beside.temperature) > gap.allowed + 1e-9) {
      return { kind: "jump", reading, beside, ...gap };
    }
  }
  return undefined;
}

function gapBetween(
  one: BathReading,
  other: BathReading,
): { readonly between: Seconds; readonly allowed: CelsiusDifference } {
  const [first, second] = one.at <= other.at ? [one, other] : [other, one];
  const between = secondsBetween(first.at, second.at);
  return { between, allowed: celsiusDifference(UNSTEADY + (FASTEST * between) / 60) };
}

/** A slip is looked for in the digits, so none is rounded away. */
const exactly = (temperature: Celsius): string => `${plain(temperature, 2)} °C`;

export function askAboutReading(question: ReadingQuestion): string {
  const { temperature } = question.reading;
  switch (question.kind) {
    case "far-from-aim": {
      const by = celsiusDifference(Math.abs(temperature - question.aim));
      const instead =
        question.meant === undefined
          ? ""
          : `, or did you read ${plain(temperature, 2)} °F, that is ${showCelsius(question.meant)}`;
      return `${exactly(temperature)} is ${showDifference(by)} from the aim: is that right${instead}?`;
    }
    case "jump": {
      const { beside, between } = question;
      return `${exactly(beside.temperature)} and ${exactly(temperature)} only ${showDuration(between)} apart is faster than a tank moves: is that right?`;
    }
  }
}
