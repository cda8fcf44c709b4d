import { expect, test } from "vitest";
import { celsius, grams } from "../units/quantity.ts";
import { balance, massNeeded, temperatureNeeded, vesselBody } from "./heat.ts";

const body = (mass: number, temperature: number) => ({
  mass: grams(mass),
  temperature: celsius(temperature),
});

test("20 L at 80 °C and 10 L at 20 °C, a litre counted as a kilogram, give 60 °C: heat-balance exercise, worked solution (read)", () => {
  expect(balance([body(20_000, 80), body(10_000, 20)])).toBeCloseTo(60, 9);
});

test("520 mL brings 640 mL at 48 °C to 65 °C when it is 85.92 °C: water mixing problem 25541, worked solution (read)", () => {
  const needed = temperatureNeeded(grams(520), body(640, 48), celsius(65));
  expect(Math.abs(needed - 85.923)).toBeLessThanOrEqual(0.01);
});

test("755.6 of 60 °C to 244.4 of 15 °C make 49 °C: own arithmetic from the exercise (derived)", () => {
  const hot = massNeeded(celsius(60), body(244.4, 15), celsius(49));
  expect(Math.abs(hot - 755.6)).toBeLessThanOrEqual(0.2);
  expect(balance([body(755.6, 60), body(244.4, 15)])).toBeCloseTo(49, 2);
});

test("a vessel counts as water, from mL or from J/K at 4.18 J/(g K): textbook value (from memory)", () => {
  const temperature = celsius(20);
  const byWater = vesselBody({ temperature, takes: { kind: "water", ml: 50 } });
  const byJoules = vesselBody({ temperature, takes: { kind: "joules-per-kelvin", value: 209 } });
  expect(byWater).toEqual(body(50, 20));
  expect(byJoules.mass).toBeCloseTo(50, 9);
});
