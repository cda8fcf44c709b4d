import fc from "fast-check";
import { expect, test } from "vitest";
import { celsius, celsiusDifference, millilitres as ml } from "../units/quantity.ts";
import type { Pour } from "./hot-and-cold.ts";
import { blendTemperature, temperatureFor, trim } from "./water-blend.ts";
import { explainWater } from "./water-error.ts";

const at = (volume: number, temperature: number): Pour => ({
  volume: ml(volume),
  temperature: celsius(temperature),
});
const come = (a: Pour, b: Pour) => {
  const blended = blendTemperature(a, b);
  if (!blended.ok) throw new Error(explainWater(blended.error));
  return blended.value;
};

test("500 mL at 60 °C and 500 mL at 20 °C come to 39.85 °C, not 40: densities 983.19 and 998.21, own arithmetic (derived)", () => {
  const { temperature, volume } = come(at(500, 60), at(500, 20));
  expect(Math.abs(temperature - 39.85)).toBeLessThanOrEqual(0.02);
  expect(volume).toBeLessThan(1000);
  expect(volume).toBeGreaterThan(995);
});

test("20 L at 80 °C and 10 L at 20 °C: 60 °C with a litre as a kilogram, under half a degree less by density: heat-balance exercise (read)", () => {
  const { temperature } = come(at(20_000, 80), at(10_000, 20));
  expect(temperature).toBeLessThan(60);
  expect(temperature).toBeGreaterThan(59.5);
});

test("520 mL for 640 mL at 48 °C to reach 65 °C: 85.92 °C with a litre as a kilogram, half a degree more by density: water mixing problem 25541 (read)", () => {
  const needed = temperatureFor(ml(520), at(640, 48), celsius(65));
  expect(needed.ok && needed.value).toBeGreaterThan(85.923);
  expect(needed.ok && needed.value).toBeLessThan(86.6);
});

test("water colder than the rest can be asked for too", () => {
  const needed = temperatureFor(ml(500), at(500, 40), celsius(30));
  expect(needed.ok && needed.value).toBeCloseTo(20, 0);
});

test("trimming up and down, with what it comes to", () => {
  const up = trim(at(1000, 36), celsiusDifference(2), celsius(60));
  if (!up.ok) throw new Error(explainWater(up.error));
  // By equal densities 1000 × 2 / 22; hot water is lighter, so a little more.
  expect(up.value.add).toBeGreaterThan(90.9);
  expect(up.value.add).toBeLessThan(93);
  const down = trim(at(1000, 40), celsiusDifference(-2), celsius(15));
  // And a warm bath weighs less than the cold water it meets: 86.96 × 0.9922 / 0.9991.
  expect(down.ok && down.value.add).toBeCloseTo(86.36, 1);
  expect(trim(at(1000, 38), celsiusDifference(0), celsius(60))).toEqual({
    ok: true,
    value: { add: 0, total: 1000 },
  });
});

test.each([
  { given: blendTemperature(at(0, 20), at(5, 30)), says: "I read 0 mL" },
  { given: blendTemperature(at(5, 20), at(-5, 30)), says: "I read -5 mL" },
  { given: blendTemperature(at(5, 120), at(5, 30)), says: "for the first water" },
  { given: blendTemperature(at(5, 20), at(5, -30)), says: "for the second water" },
  { given: temperatureFor(ml(0), at(5, 20), celsius(30)), says: "I read 0 mL" },
  { given: temperatureFor(ml(5), at(0, 20), celsius(30)), says: "I read 0 mL" },
  { given: temperatureFor(ml(5), at(5, 200), celsius(30)), says: "for the water that is there" },
  { given: temperatureFor(ml(5), at(5, 20), celsius(130)), says: "for the target" },
  { given: temperatureFor(ml(100), at(1000, 20), celsius(38)), says: "there is none: take more" },
  { given: temperatureFor(ml(100), at(1000, 20), celsius(10)), says: "Only water of -" },
  { given: trim(at(0, 20), celsiusDifference(1), celsius(30)), says: "I read 0 mL" },
  { given: trim(at(9, -20), celsiusDifference(1), celsius(30)), says: "for the bath" },
  { given: trim(at(9, 20), celsiusDifference(90), celsius(30)), says: "for the target" },
  { given: trim(at(9, 20), celsiusDifference(1), celsius(300)), says: "for the water to add" },
  { given: trim(at(9, 36), celsiusDifference(2), celsius(38)), says: "take hotter water" },
  { given: trim(at(9, 40), celsiusDifference(-2), celsius(38)), says: "take colder water" },
  { given: trim(at(9, 36), celsiusDifference(2), celsius(15)), says: "take hotter water" },
  { given: trim(at(9e4, 36), celsiusDifference(2), celsius(38.1)), says: "I go up to 200 L" },
])("refused: $says", ({ given, says }) => {
  expect(given.ok ? "" : explainWater(given.error)).toContain(says);
});

const volumes = fc.double({ min: 10, max: 10_000, noNaN: true });

test("a blend lies between its waters", () => {
  const between = fc.property(
    volumes,
    volumes,
    fc.double({ min: 1, max: 40, noNaN: true }),
    fc.double({ min: 41, max: 99, noNaN: true }),
    (a, b, cold, hot) => {
      const { temperature } = come(at(a, cold), at(b, hot));
      expect(temperature).toBeGreaterThan(cold);
      expect(temperature).toBeLessThan(hot);
    },
  );
  fc.assert(between);
});

test("the temperature asked for, mixed in, lands on the target", () => {
  const lands = fc.property(
    fc.double({ min: 500, max: 2000, noNaN: true }),
    fc.double({ min: 100, max: 500, noNaN: true }),
    fc.double({ min: 20, max: 40, noNaN: true }),
    (amount, there, now) => {
      const other = at(there, now);
      const needed = temperatureFor(ml(amount), other, celsius(38));
      if (!needed.ok) throw new Error(explainWater(needed.error));
      expect(come(at(amount, needed.value), other).temperature).toBeCloseTo(38, 6);
    },
  );
  fc.assert(lands);
});

test("a trim, poured in, moves the bath by what was asked", () => {
  const moves = fc.property(
    volumes,
    fc.double({ min: 0.1, max: 5, noNaN: true }),
    fc.boolean(),
    (volume, by, up) => {
      const bath = at(volume, 35);
      const supply = celsius(up ? 60 : 12);
      const difference = celsiusDifference(up ? by : -by);
      const done = trim(bath, difference, supply);
      if (!done.ok) throw new Error(explainWater(done.error));
      const after = come(bath, { volume: done.value.add, temperature: supply });
      expect(after.temperature).toBeCloseTo(35 + difference, 6);
      expect(after.volume / done.value.total).toBeCloseTo(1, 9);
    },
  );
  fc.assert(moves);
});
