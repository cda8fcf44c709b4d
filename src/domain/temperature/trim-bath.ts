import type { Pour } from "../mixing/hot-and-cold.ts";
import { type Trim, trim } from "../mixing/water-blend.ts";
import { explainWater, type WaterError } from "../mixing/water-error.ts";
import { err, ok, type Result } from "../result.ts";
import type { Celsius, CelsiusDifference } from "../units/quantity.ts";
import {
  checkTemperatures,
  explainImpossible,
  type ImpossibleTemperature,
} from "./bath-temperature.ts";

export type TrimError = WaterError | ImpossibleTemperature;

/**
 * Hot or cold water that trims a bath by a difference: hot to warm it, cold to cool it. Water baths
 * and start water only, since it would dilute a solution; ends with "measure again".
 *
 * @param bath  mL and °C
 * @param by    °C, up or down
 * @param hot, cold  °C of the supplies
 */
export function trimBath(
  bath: Pour,
  by: CelsiusDifference,
  hot: Celsius,
  cold: Celsius,
): Result<Trim & { readonly from: "hot" | "cold" }, TrimError> {
  const wrong = checkTemperatures({
    bath: bath.temperature,
    "hot water": hot,
    "cold water": cold,
    "trimmed bath": bath.temperature + by,
  });
  if (wrong) return err(wrong);
  const from = by >= 0 ? "hot" : "cold";
  const trimmed = trim(bath, by, from === "hot" ? hot : cold);
  return trimmed.ok ? ok({ ...trimmed.value, from }) : trimmed;
}

export const explainTrim = (error: TrimError): string =>
  error.kind === "impossible-temperature" ? explainImpossible(error) : explainWater(error);
