import { err, ok, type Result } from "../result.ts";
import { type Celsius, grams, type Millilitres } from "../units/quantity.ts";
import { volume } from "./amount.ts";
import { massOf, volumeOf } from "./density.ts";
import { balance, temperatureNeeded, type Vessel, vesselBody } from "./heat.ts";
import { checkWanted } from "./wanted.ts";
import { waterDensity } from "./water-density.ts";
import { checkLiquid, type WaterError } from "./water-error.ts";

/** Some liquid at a temperature; measured at that temperature. */
export type Pour = { readonly volume: Millilitres; readonly temperature: Celsius };

export type WaterWanted = {
  /** Water to make, mL as it measures at `target`, above 0. */
  readonly volume: Millilitres;
  /** Where everything should land once `later` is in, °C. */
  readonly target: Celsius;
  readonly hot: Celsius;
  readonly cold: Celsius;
  /** The jug, if its heat is to be counted. */
  readonly vessel?: Vessel | undefined;
  /** Parts and top-up that go in afterwards; counted as water (a concentrate takes a little more). */
  readonly later?: readonly Pour[] | undefined;
};

export type HotAndCold = {
  /** Hot water, mL measured hot. */
  readonly hot: Millilitres;
  /** Cold water, mL measured cold. */
  readonly cold: Millilitres;
  /** What the thermometer should say in the vessel before anything else goes in, °C. */
  readonly aim: Celsius;
  /** What the two waters come to by themselves, before the vessel takes its share, °C. */
  readonly poured: Celsius;
};

/**
 * Hot and cold water for a volume at a temperature, by mass with water's density: counting by
 * volume lands about 0.15 °C off for equal parts of 60 and 20 °C. Heat lost to the air is not
 * counted, so an answer made from this ends with "measure and trim".
 *
 * Backwards from the target: later parts pull the water down, so it must be warmer by their share
 * (`aim`); the vessel pulls the poured water down to that, so the blend is warmer still
 * (`poured`); hot and cold then share the mass by how far `poured` lies from each.
 *
 * @returns volumes in mL at each water's own temperature, unrounded; errors name all temperatures
 */
export function hotAndCold(wanted: WaterWanted): Result<HotAndCold, WaterError> {
  const { target, hot, cold, vessel, later = [] } = wanted;
  const wrong =
    checkWanted(volume(wanted.volume)) ??
    checkLiquid({ "hot water": hot, "cold water": cold, target }) ??
    checkOthers(vessel, later);
  if (wrong) return err(wrong);
  if (hot <= cold) return err({ kind: "supplies-not-apart", hot, cold });

  const water = massOf(wanted.volume, waterDensity(target));
  const jug = vessel === undefined ? undefined : vesselBody(vessel);
  const parts = later.map((pour) => ({
    mass: massOf(pour.volume, waterDensity(pour.temperature)),
    temperature: pour.temperature,
  }));
  const partsMass = grams(parts.reduce((sum, part) => sum + part.mass, 0));
  const aim =
    partsMass > 0
      ? temperatureNeeded(
          grams(water + (jug?.mass ?? 0)),
          { mass: partsMass, temperature: balance(parts) },
          target,
        )
      : target;
  const exact = jug === undefined ? aim : temperatureNeeded(water, jug, aim);
  const poured = settle(settle(exact, hot), cold);
  if (poured > hot || poured < cold) {
    return err({ kind: "out-of-reach", target, needed: poured, hot, cold });
  }

  const hotMass = grams((water * (poured - cold)) / (hot - cold));
  return ok({
    hot: volumeOf(hotMass, waterDensity(hot)),
    cold: volumeOf(grams(water - hotMass), waterDensity(cold)),
    aim,
    poured,
  });
}

/** Rounding noise beside a supply's temperature is that temperature. */
const settle = (temperature: Celsius, supply: Celsius): Celsius =>
  Math.abs(temperature - supply) < 1e-9 ? supply : temperature;

function checkOthers(vessel: Vessel | undefined, later: readonly Pour[]): WaterError | undefined {
  if (vessel !== undefined) {
    const { mass } = vesselBody(vessel);
    if (mass < 0) return { kind: "nothing-to-mix", wanted: volume(mass) };
    const frozen = checkLiquid({ vessel: vessel.temperature });
    if (frozen) return frozen;
  }
  for (const pour of later) {
    if (pour.volume < 0) return { kind: "nothing-to-mix", wanted: volume(pour.volume) };
    const frozen = checkLiquid({ "part that goes in later": pour.temperature });
    if (frozen) return frozen;
  }
  return undefined;
}
