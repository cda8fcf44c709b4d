import type { Celsius } from "../units/quantity.ts";
import { showTemperature } from "../units/show.ts";
import { explainWanted, type WantedError } from "./wanted.ts";
import { isLiquid, WATER_FROM, WATER_TO } from "./water-density.ts";

export type NotLiquid = {
  readonly kind: "not-liquid";
  readonly what: string;
  readonly temperature: Celsius;
};

export type WaterError =
  | WantedError
  | NotLiquid
  | { readonly kind: "supplies-not-apart"; readonly hot: Celsius; readonly cold: Celsius }
  | {
      /** The blend would have to be hotter or colder than what there is. */
      readonly kind: "out-of-reach";
      readonly target: Celsius;
      /** What the water would have to be when poured: more than the target if other things take heat. */
      readonly needed: Celsius;
      readonly hot: Celsius;
      readonly cold: Celsius;
    }
  | {
      /** One supply, and it lies on the wrong side of the target. */
      readonly kind: "no-help";
      readonly now: Celsius;
      readonly target: Celsius;
      readonly supply: Celsius;
    }
  | { readonly kind: "no-such-water"; readonly needed: Celsius; readonly target: Celsius };

/** The first of these temperatures that is no temperature of liquid water. */
export function checkLiquid(named: Readonly<Record<string, Celsius>>): NotLiquid | undefined {
  for (const [what, temperature] of Object.entries(named)) {
    if (!isLiquid(temperature)) return { kind: "not-liquid", what, temperature };
  }
  return undefined;
}

/** What was read and what to give instead, in one sentence. */
export function explainWater(error: WaterError): string {
  switch (error.kind) {
    case "not-liquid":
      return `I read ${showTemperature(error.temperature)} for the ${error.what}: give a temperature from ${WATER_FROM} to ${WATER_TO} °C.`;
    case "supplies-not-apart":
      return `The hot water at ${showTemperature(error.hot)} is not hotter than the cold at ${showTemperature(error.cold)}: measure both again.`;
    case "out-of-reach": {
      const { target, needed, hot, cold } = error;
      const more =
        Math.abs(needed - target) < 0.05
          ? ""
          : `, which takes water of ${showTemperature(needed)} because of what else it meets,`;
      const way = needed > hot ? "heat the hot water further" : "cool the cold water further";
      return `${showTemperature(target)}${more} cannot come from ${showTemperature(hot)} and ${showTemperature(cold)}: ${way}, or aim closer.`;
    }
    case "no-help":
      return `Water of ${showTemperature(error.supply)} cannot bring ${showTemperature(error.now)} to ${showTemperature(error.target)}: take ${error.target > error.now ? "hotter" : "colder"} water.`;
    case "no-such-water":
      return `Only water of ${showTemperature(error.needed)} would bring it to ${showTemperature(error.target)}, and there is none: take more of it, or aim closer.`;
    default:
      return explainWanted(error);
  }
}
