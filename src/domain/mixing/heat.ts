import { type Celsius, celsius, type Grams, grams } from "../units/quantity.ts";

/** An amount of water, or of something counted as water, at a temperature. */
export type Body = { readonly mass: Grams; readonly temperature: Celsius };

/**
 * The temperature bodies of water come to together: the mean weighted by mass. The specific heat
 * of water is taken as constant (it varies by about 1 % from 0 to 100 °C; from memory).
 */
export function balance(bodies: readonly Body[]): Celsius {
  const mass = bodies.reduce((sum, body) => sum + body.mass, 0);
  return celsius(bodies.reduce((sum, body) => sum + body.mass * body.temperature, 0) / mass);
}

/** The temperature a mass must have to bring `other` to `target`. */
export const temperatureNeeded = (mass: Grams, other: Body, target: Celsius): Celsius =>
  celsius(target + (other.mass * (target - other.temperature)) / mass);

/** How much at `temperature` brings `other` to `target`; negative if it cannot. */
export const massNeeded = (temperature: Celsius, other: Body, target: Celsius): Grams =>
  grams((other.mass * (target - other.temperature)) / (temperature - target));

/** Specific heat of water, J/(g K): textbook value near room temperature (from memory). */
const SPECIFIC_HEAT = 4.18;

/** A jug as so much water: by its heat capacity in J/K, or in mL of water that would take as much. */
export type Vessel = {
  readonly temperature: Celsius;
  readonly takes:
    | { readonly kind: "joules-per-kelvin"; readonly value: number }
    | { readonly kind: "water"; readonly ml: number };
};

/** The vessel as a body of water; 1 mL counts as 1 g, the figure is never known better. */
export const vesselBody = ({ temperature, takes }: Vessel): Body => ({
  temperature,
  mass: grams(takes.kind === "water" ? takes.ml : takes.value / SPECIFIC_HEAT),
});
