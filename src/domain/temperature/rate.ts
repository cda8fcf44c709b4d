import type { Origin } from "../origin.ts";
import { err, ok, type Result } from "../result.ts";
import { type Celsius, celsius } from "../units/quantity.ts";
import { showCelsius, showTemperature } from "../units/show.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";
import {
  byTemperature,
  checkLaw,
  explainLaw,
  type LawError,
  q10FromK7,
  type TimeLaw,
} from "./time-law.ts";

/** How far from the aim a coefficient is used, °C: one step of its own definition; our own bound. */
export const COEFFICIENT_REACH = 10;

/**
 * Factors for 10 °C where nothing is known of a developer. The rows in data/time-temperature.json
 * imply about 1.4 to 2.9 (derived from F-32); an older handbook figure for real processes is 1.5
 * to 4 (quoted in a weblog on temperature in film development, read-secondary). The rows are
 * nearer to what is in the tank, so they are used, and the answer says that it is an estimate.
 */
export const PUBLISHED_SPREAD: {
  readonly low: number;
  readonly high: number;
  readonly origin: Origin;
} = {
  low: 1.4,
  high: 2.9,
  origin: {
    kind: "computed",
    source: "from the rows of F-32, rotary-tube table; older handbooks give up to 4",
  },
};

export type LawRange = "table" | "coefficient";

/** How fast a developer works, against its rate at the aim. */
export type Rate = {
  /** It may be asked from here to there, °C, both included. */
  readonly from: Celsius;
  readonly to: Celsius;
  readonly range: LawRange;
  /** ln(rate / rate at the aim); 0 at the aim. Straight between `knots`. */
  readonly log: (temperature: Celsius) => number;
  /** Where the slope of `log` changes, °C, rising. */
  readonly knots: readonly Celsius[];
};

export type RateError =
  | LawError
  | ImpossibleTemperature
  | {
      /** No extrapolation: a table ends at its last rows. */
      readonly kind: "outside-law";
      /** Which temperature lies outside. */
      readonly which: "aim" | "bath";
      readonly temperature: Celsius;
      readonly from: Celsius;
      readonly to: Celsius;
      readonly range: LawRange;
    };

/**
 * The rate law about an aim.
 *
 * @param aim  °C at which the sheet's time holds; inside the table, where the law is one
 * @returns errors of the law itself (`too-few-rows`, ...), `impossible-temperature`, `outside-law`
 */
export function rateAbout(aim: Celsius, law: TimeLaw): Result<Rate, RateError> {
  const wrong = checkTemperatures({ aim }) ?? checkLaw(law);
  if (wrong) return err(wrong);
  if (law.kind !== "table")
    return ok(exponential(aim, law.kind === "q10" ? law.q10 : q10FromK7(law.k7)));

  const rows = byTemperature(law.rows);
  const knots = rows.map(({ at }) => at);
  const from = knots[0] ?? aim;
  const to = knots.at(-1) ?? aim;
  const outside = beyond("aim", aim, { from, to, range: "table" });
  if (outside) return err(outside);
  const logTime = (temperature: Celsius): number => {
    const index = rows.findIndex(({ at }) => at >= temperature);
    const above = rows[index];
    const below = rows[index - 1] ?? above;
    if (above === undefined || below === undefined) throw new RangeError("outside the table");
    if (above.at === temperature || above === below) return Math.log(above.time);
    const share = (temperature - below.at) / (above.at - below.at);
    return Math.log(below.time) + share * Math.log(above.time / below.time);
  };
  const atAim = logTime(celsius(Math.min(to, Math.max(from, aim))));
  return ok({
    from,
    to,
    range: "table",
    knots,
    log: (temperature) => atAim - logTime(temperature),
  });
}

/** A rate that rises by the same factor for every 10 °C, from 10 °C below the aim to 10 °C above. */
export function exponential(aim: Celsius, q10: number): Rate {
  const slope = Math.log(q10) / 10;
  return {
    from: celsius(aim - COEFFICIENT_REACH),
    to: celsius(aim + COEFFICIENT_REACH),
    range: "coefficient",
    knots: [],
    log: (temperature) => slope * (temperature - aim),
  };
}

/** `outside-law` where a temperature lies beyond a rate's ends. */
export function beyond(
  which: "aim" | "bath",
  temperature: Celsius,
  { from, to, range }: Pick<Rate, "from" | "to" | "range">,
): RateError | undefined {
  const inside = temperature >= from - 1e-9 && temperature <= to + 1e-9;
  return inside ? undefined : { kind: "outside-law", which, temperature, from, to, range };
}

/** A temperature moved onto a rate's end where only rounding put it beyond. */
export const within = (temperature: Celsius, { from, to }: Rate): Celsius =>
  celsius(Math.min(to, Math.max(from, temperature)));

export function explainRate(error: RateError): string {
  switch (error.kind) {
    case "impossible-temperature":
      return explainImpossible(error);
    case "outside-law": {
      const { which, temperature, from, to, range } = error;
      const ends = `${showCelsius(from)} to ${showCelsius(to)}`;
      const name = which === "aim" ? "The aim of" : "A bath at";
      return range === "table"
        ? `${name} ${showTemperature(temperature)} is outside the table, which goes from ${ends}: bring the bath inside it, I do not guess beyond.`
        : `${name} ${showTemperature(temperature)} is too far from the aim to work out a time, which I do from ${ends}: bring the bath closer.`;
    }
    default:
      return explainLaw(error);
  }
}
