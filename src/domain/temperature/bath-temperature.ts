import { err, ok, type Result } from "../result.ts";
import { type Degrees, fromFahrenheit } from "../units/conversions.ts";
import { type Celsius, celsius } from "../units/quantity.ts";
import { plain, showTemperature } from "../units/show.ts";

/**
 * The warmest a bath is taken to be, °C: our own bound, no source. Mixing water goes to 52 °C
 * (navy training manual, chapter 9 Chemical Mixing, read), and no bath is used that warm.
 */
export const BATH_TO = 60;
/** From its aim a bath is not expected to be further than this, °C: our own bound, no source. */
export const FAR = 15;
/** A number read in the other unit is "close to the aim" within this, °C: our own bound. */
const CLOSE = 5;

/** Beyond this a number of degrees is no number at all. */
const SENSIBLE = 100_000;

/** Not NaN, not frozen, not too hot to be a bath. */
export const isBath = (temperature: Celsius): boolean => temperature >= 0 && temperature <= BATH_TO;

export type ImpossibleTemperature = {
  readonly kind: "impossible-temperature";
  /** Whose temperature it is: "tank", "room". */
  readonly what: string;
  readonly temperature: number;
};

/** The first of these that liquid water cannot have (0 to 100 °C), or that is no number at all. */
export function checkTemperatures(
  named: Readonly<Record<string, number>>,
): ImpossibleTemperature | undefined {
  for (const [what, temperature] of Object.entries(named)) {
    if (!(temperature >= 0 && temperature <= 100)) {
      return { kind: "impossible-temperature", what, temperature };
    }
  }
  return undefined;
}

export const explainImpossible = ({ what, temperature }: ImpossibleTemperature): string =>
  Math.abs(temperature) <= SENSIBLE
    ? `I read ${showTemperature(celsius(temperature))} for the ${what}: give a temperature from 0 to 100 °C.`
    : `I need a temperature from 0 to 100 °C for the ${what}.`;

export type BathTemperatureError =
  | { readonly kind: "no-number" }
  /** Frozen, boiling, or hotter than any bath, in either unit. */
  | { readonly kind: "no-bath"; readonly temperature: Celsius }
  | {
      /** Only the other unit makes sense of it: to be asked, not taken. */
      readonly kind: "other-unit";
      readonly number: number;
      readonly unit: Degrees;
      readonly meant: Celsius;
    };

/**
 * The temperature of a bath from a number and the bench's unit, looked at before it is believed:
 * 100 on a °C bench is a question, not a bath.
 *
 * @param number  as it was said
 * @param unit    the unit it was said in, or the bench's own
 * @param near    the aim, °C, where there is one: 50 is then 50 °F beside an aim of 10 °C
 * @returns °C; `no-number`, `no-bath`, or `other-unit` with the °C that may be meant
 */
export function bathTemperature(
  number: number,
  unit: Degrees,
  near?: Celsius,
): Result<Celsius, BathTemperatureError> {
  if (!(Math.abs(number) <= SENSIBLE)) return err({ kind: "no-number" });
  const asCelsius = celsius(number);
  const asFahrenheit = fromFahrenheit(number);
  const [heard, meant] = unit === "C" ? [asCelsius, asFahrenheit] : [asFahrenheit, asCelsius];
  if (!isBath(heard)) {
    return err(
      isBath(meant)
        ? { kind: "other-unit", number, unit, meant }
        : { kind: "no-bath", temperature: heard },
    );
  }
  if (near !== undefined && Math.abs(heard - near) > FAR && Math.abs(meant - near) <= CLOSE) {
    return err({ kind: "other-unit", number, unit, meant });
  }
  return ok(heard);
}

export function explainBathTemperature(error: BathTemperatureError): string {
  switch (error.kind) {
    case "no-number":
      return "I need the temperature as a number of degrees.";
    case "no-bath":
      return `I read ${showTemperature(error.temperature)}, and no bath is used at that: read the thermometer again.`;
    case "other-unit": {
      const other = error.unit === "C" ? "F" : "C";
      const number = plain(error.number, 2);
      return `I read ${number} °${error.unit}, which does not fit this bath: did you mean ${number} °${other}, that is ${showTemperature(error.meant)}?`;
    }
  }
}
