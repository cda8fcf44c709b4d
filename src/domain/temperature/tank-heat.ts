import { balance, temperatureNeeded } from "../mixing/heat.ts";
import { MOST } from "../mixing/wanted.ts";
import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsiusDifference,
  grams,
  type Millilitres,
  millilitres,
} from "../units/quantity.ts";
import { plain, showCelsius, showVolume } from "../units/show.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";

/**
 * Developer and tank apart by less tell nothing of the tank, °C: thermometers that disagree by
 * 0.1 °C would then make a fiftieth of the fall and more; our own figure.
 */
export const LEAST_APART = celsiusDifference(5);

/** A tank with reels as so much water that would take the same heat, at a temperature. */
export type Tank = {
  readonly temperature: Celsius;
  /** mL of water, above 0; typical plastic tanks 30 to 70 (assumed, no source: learn yours). */
  readonly takes: Millilitres;
};

/** What is poured in, counted as water, 1 mL as 1 g: the tank's own figure is never known better. */
export type Developer = { readonly volume: Millilitres; readonly temperature: Celsius };

export type HeatError =
  | ImpossibleTemperature
  | { readonly kind: "no-volume"; readonly volume: number }
  | { readonly kind: "tank-takes-nothing"; readonly takes: number }
  | {
      readonly kind: "too-close";
      readonly apart: CelsiusDifference;
      readonly least: CelsiusDifference;
    }
  /** After the pour it must lie between tank and developer. */
  | {
      readonly kind: "against-heat";
      readonly before: Celsius;
      readonly after: Celsius;
      readonly tank: Celsius;
    }
  /** A tank that takes more heat than the developer in it: a slip in one of the readings. */
  | { readonly kind: "too-heavy"; readonly takes: Millilitres; readonly volume: Millilitres }
  | {
      readonly kind: "out-of-reach";
      readonly what: "developer" | "tank";
      /** °C, outside 0 to 100. */
      readonly needed: Celsius;
      readonly aim: Celsius;
    };

/**
 * The heat a tank takes, from one pour: takes = volume × (before - after) / (after - tank).
 *
 * @param volume  of developer, mL
 * @param before  °C of the developer before the pour
 * @param after   °C in the tank a minute later
 * @param tank    °C of the empty tank before
 * @returns mL of water that would take as much
 */
export function learnTank(
  volume: Millilitres,
  before: Celsius,
  after: Celsius,
  tank: Celsius,
): Result<Millilitres, HeatError> {
  const wrong =
    checkVolume(volume) ??
    checkTemperatures({ "developer before": before, "developer after": after, tank });
  if (wrong) return err(wrong);
  const apart = celsiusDifference(Math.abs(before - tank));
  if (apart < LEAST_APART - 1e-9) return err({ kind: "too-close", apart, least: LEAST_APART });
  const share = (before - after) / (before - tank);
  // No fall at all is a tank that takes nothing; a rise, or a fall to the tank and beyond, is a slip.
  if (!(share > 0 && share < 1)) return err({ kind: "against-heat", before, after, tank });
  const takes = millilitres((volume * share) / (1 - share));
  return takes > volume ? err({ kind: "too-heavy", takes, volume }) : ok(takes);
}

export type Landing = {
  /** °C of both together. */
  readonly lands: Celsius;
  /** What the developer loses, °C; below 0 where the tank warms it. */
  readonly drop: CelsiusDifference;
};

/** Where a developer lands in a tank, once both are one; heat to the air is not counted. */
export function afterPour(developer: Developer, tank: Tank): Result<Landing, HeatError> {
  const wrong = checkPour(developer, tank);
  if (wrong) return err(wrong);
  const lands = balance([
    { mass: grams(developer.volume), temperature: developer.temperature },
    { mass: grams(tank.takes), temperature: tank.temperature },
  ]);
  return ok({ lands, drop: celsiusDifference(developer.temperature - lands) });
}

/** °C a developer must have to land on its aim in this tank. */
export function developerFor(
  aim: Celsius,
  volume: Millilitres,
  tank: Tank,
): Result<Celsius, HeatError> {
  const wrong = checkPour({ volume, temperature: aim }, tank);
  if (wrong) return err(wrong);
  const body = { mass: grams(tank.takes), temperature: tank.temperature };
  return reachable("developer", temperatureNeeded(grams(volume), body, aim), aim);
}

/** °C a tank must have for this developer to land on its aim. */
export function tankFor(
  aim: Celsius,
  developer: Developer,
  takes: Millilitres,
): Result<Celsius, HeatError> {
  const wrong = checkPour(developer, { temperature: aim, takes });
  if (wrong) return err(wrong);
  const body = { mass: grams(developer.volume), temperature: developer.temperature };
  return reachable("tank", temperatureNeeded(grams(takes), body, aim), aim);
}

const reachable = (
  what: "developer" | "tank",
  needed: Celsius,
  aim: Celsius,
): Result<Celsius, HeatError> =>
  needed >= 0 && needed <= 100 ? ok(needed) : err({ kind: "out-of-reach", what, needed, aim });

const checkVolume = (volume: number): HeatError | undefined =>
  volume > 0 && volume <= MOST ? undefined : { kind: "no-volume", volume };

function checkPour(developer: Developer, { temperature, takes }: Tank): HeatError | undefined {
  const wrong =
    checkVolume(developer.volume) ??
    checkTemperatures({ developer: developer.temperature, tank: temperature });
  if (wrong) return wrong;
  return takes > 0 && takes <= MOST ? undefined : { kind: "tank-takes-nothing", takes };
}

export function explainHeat(error: HeatError): string {
  switch (error.kind) {
    case "impossible-temperature":
      return explainImpossible(error);
    case "no-volume":
      return "I need the developer's volume, above zero and as much as a tank can hold.";
    case "tank-takes-nothing":
      return "Every tank takes some heat: measure the developer before and after a pour and I will learn how much.";
    case "too-close":
      return `Tank and developer are only ${plain(error.apart, 1)} °C apart, too little to learn from: measure a pour into a tank ${plain(error.least, 0)} °C colder or more.`;
    case "against-heat":
      return `A developer of ${showCelsius(error.before)} in a tank of ${showCelsius(error.tank)} must come out between the two, not at ${showCelsius(error.after)}: read all three again.`;
    case "too-heavy":
      return `That makes the tank take as much heat as ${showVolume(error.takes)} of water, more than the ${showVolume(error.volume)} in it: read all three again.`;
    case "out-of-reach":
      return `The ${error.what} would have to be at ${plain(error.needed, 1)} °C to land on ${showCelsius(error.aim)}: ${error.what === "tank" ? "warm or cool the developer as well" : "warm the tank first"}.`;
  }
}
