import { ok, type Result } from "../result.ts";
import {
  type Celsius,
  type CelsiusDifference,
  celsius,
  type Millilitres,
} from "../units/quantity.ts";
import {
  afterPour,
  type Developer,
  developerFor,
  type HeatError,
  type Landing,
  type Tank,
  tankFor,
} from "./tank-heat.ts";

export type PreHeat = Landing & {
  /** As things are, it lands inside aim ± tolerance. */
  readonly inside: boolean;
  /** °C the developer must have with the tank as it is; missing where no water is that hot. */
  readonly developer: Celsius | undefined;
  /** °C the tank must have with the developer as it is, and the range that is still inside. */
  readonly tank: Celsius | undefined;
  readonly tankFrom: Celsius | undefined;
  readonly tankTo: Celsius | undefined;
};

/**
 * Advice before a pour: where it would land, and what either of the two would have to be.
 *
 * @param aim        °C in the tank
 * @param tolerance  half the band, °C; 0 leaves one temperature
 */
export function preHeat(
  aim: Celsius,
  tolerance: CelsiusDifference,
  developer: Developer,
  tank: Tank,
): Result<PreHeat, HeatError> {
  const landing = afterPour(developer, tank);
  if (!landing.ok) return landing;
  const needed = developerFor(aim, developer.volume, tank);
  if (!needed.ok && needed.error.kind !== "out-of-reach") return needed;
  return ok({
    ...landing.value,
    inside: Math.abs(landing.value.lands - aim) <= tolerance + 1e-9,
    developer: needed.ok ? needed.value : undefined,
    tank: tankAt(aim, developer, tank.takes),
    tankFrom: tankAt(aim - tolerance, developer, tank.takes),
    tankTo: tankAt(aim + tolerance, developer, tank.takes),
  });
}

function tankAt(aim: number, developer: Developer, takes: Millilitres): Celsius | undefined {
  if (!Number.isFinite(aim)) return undefined;
  const needed = tankFor(celsius(aim), developer, takes);
  return needed.ok ? needed.value : undefined;
}
