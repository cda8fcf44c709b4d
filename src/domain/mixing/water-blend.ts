import { err, ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  grams,
  type Millilitres,
  millilitres,
} from "../units/quantity.ts";
import { volume } from "./amount.ts";
import { massOf, volumeOf } from "./density.ts";
import { type Body, balance, massNeeded, temperatureNeeded } from "./heat.ts";
import type { Pour } from "./hot-and-cold.ts";
import { checkWanted } from "./wanted.ts";
import { isLiquid, WATER_FROM, WATER_TO, waterDensity } from "./water-density.ts";
import { checkLiquid, type WaterError } from "./water-error.ts";

const bodyOf = ({ volume: poured, temperature }: Pour): Body => ({
  mass: massOf(poured, waterDensity(temperature)),
  temperature,
});

/**
 * What two waters come to, by mass. Vessel and air are not counted, so it ends with "measure and
 * trim".
 *
 * @param a, b  mL at their own temperatures, above 0
 * @returns temperature and volume of the blend, °C and mL
 */
export function blendTemperature(a: Pour, b: Pour): Result<Pour, WaterError> {
  const wrong =
    checkWanted(volume(a.volume)) ??
    checkWanted(volume(b.volume)) ??
    checkLiquid({ "first water": a.temperature, "second water": b.temperature });
  if (wrong) return err(wrong);
  const bodies = [bodyOf(a), bodyOf(b)];
  const temperature = balance(bodies);
  const mass = grams(bodies.reduce((sum, body) => sum + body.mass, 0));
  return ok({ temperature, volume: volumeOf(mass, waterDensity(temperature)) });
}

/**
 * How hot (or cold) a measured volume must be to bring another to a target. Its density depends on
 * the answer, so the answer is found by going round until it stands still. Ends with "measure and
 * trim".
 *
 * @param amount  mL of the water whose temperature is asked, above 0
 * @param other   the water that is there
 * @param target  °C of both together
 */
export function temperatureFor(
  amount: Millilitres,
  other: Pour,
  target: Celsius,
): Result<Celsius, WaterError> {
  const wrong =
    checkWanted(volume(amount)) ??
    checkWanted(volume(other.volume)) ??
    checkLiquid({ "water that is there": other.temperature, target });
  if (wrong) return err(wrong);
  const body = bodyOf(other);
  let needed = target;
  for (let round = 0; round < 30; round += 1) {
    const within = celsius(Math.min(WATER_TO, Math.max(WATER_FROM, needed)));
    needed = temperatureNeeded(massOf(amount, waterDensity(within)), body, target);
  }
  return isLiquid(needed) ? ok(needed) : err({ kind: "no-such-water", needed, target });
}

export type Trim = {
  /** Water to add, mL at its own temperature. */
  readonly add: Millilitres;
  /** What there is afterwards, mL at the new temperature. */
  readonly total: Millilitres;
};

/**
 * Water that trims a bath of water by a difference. For start water or a tempering bath only: in a
 * mixed solution it would dilute. Ends with "measure again".
 *
 * @param bath    what is there, mL and °C
 * @param by      °C, up or down; 0 needs nothing
 * @param supply  temperature of the water to add, beyond where the bath should land
 */
export function trim(bath: Pour, by: CelsiusDifference, supply: Celsius): Result<Trim, WaterError> {
  const target = celsius(bath.temperature + by);
  const wrong =
    checkWanted(volume(bath.volume)) ??
    checkLiquid({ bath: bath.temperature, target, "water to add": supply });
  if (wrong) return err(wrong);
  if (by === 0) return ok({ add: millilitres(0), total: bath.volume });
  const now = bath.temperature;
  const beyond = by > 0 ? supply > target : supply < target;
  if (!beyond) return err({ kind: "no-help", now, target, supply });
  const body = bodyOf(bath);
  const mass = massNeeded(supply, body, target);
  const total = volumeOf(grams(body.mass + mass), waterDensity(target));
  const tooMuch = checkWanted(volume(total));
  return tooMuch ? err(tooMuch) : ok({ add: volumeOf(mass, waterDensity(supply)), total });
}
