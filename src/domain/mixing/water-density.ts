import type { Celsius } from "../units/quantity.ts";
import { type GramsPerMillilitre, gramsPerMillilitre } from "./density.ts";

/** The range the equation is used for, °C. */
export const WATER_FROM = 0;
export const WATER_TO = 100;

export const isLiquid = (temperature: Celsius): boolean =>
  temperature >= WATER_FROM && temperature <= WATER_TO;

/**
 * Density of air-free water at atmospheric pressure, g/mL.
 *
 * Equation of G. S. Kell, J. Chem. Eng. Data 20 (1975) 97; coefficients seen in copies that quote
 * it, not in the paper (read-secondary). It gives kg/m³ from °C; a standard table's values at 4,
 * 10, 20, 25 and 60 °C are in the test.
 *
 * @param temperature  0 to 100 °C; anything else is our bug, callers refuse it before
 */
export function waterDensity(temperature: Celsius): GramsPerMillilitre {
  if (!isLiquid(temperature)) throw new RangeError(`no liquid water at ${temperature} °C`);
  const t = temperature;
  const over =
    999.83952 +
    t *
      (16.945176 +
        t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
  return gramsPerMillilitre(over / (1 + 16.87985e-3 * t) / 1000);
}
