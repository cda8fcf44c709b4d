import fc from "fast-check";
import { expect, test } from "vitest";
import { celsius } from "../units/quantity.ts";
import {
  bathTemperature,
  checkTemperatures,
  explainBathTemperature,
  explainImpossible,
} from "./bath-temperature.ts";

test.each<{ number: number; unit: "C" | "F"; near?: number; says: string }>([
  { number: 100, unit: "C", says: "did you mean 100 °F, that is 37.8 °C" },
  { number: 68, unit: "C", says: "did you mean 68 °F, that is 20 °C" },
  { number: 38, unit: "F", near: 37.8, says: "did you mean 38 °C, that is 38 °C" },
  { number: 50, unit: "C", near: 10, says: "did you mean 50 °F, that is 10 °C" },
  { number: -5, unit: "C", says: "no bath is used at that" },
  { number: 200, unit: "C", says: "no bath is used at that" },
  { number: 5, unit: "F", near: 37.8, says: "did you mean 5 °C" },
  { number: Number.NaN, unit: "C", says: "as a number" },
  { number: Number.POSITIVE_INFINITY, unit: "F", says: "as a number" },
])("$number °$unit is asked about: $says", ({ number, unit, near, says }) => {
  const heard = bathTemperature(number, unit, near === undefined ? undefined : celsius(near));
  expect(heard.ok ? "" : explainBathTemperature(heard.error)).toContain(says);
});

test.each<{ number: number; unit: "C" | "F"; near?: number; c: number }>([
  { number: 37.8, unit: "C", near: 37.8, c: 37.8 },
  { number: 100, unit: "F", near: 37.8, c: 37.7778 },
  { number: 50, unit: "C", near: 37.8, c: 50 },
  { number: 24, unit: "C", near: 37.8, c: 24 },
  { number: 0, unit: "C", c: 0 },
])("$number °$unit is taken", ({ number, unit, near, c }) => {
  const heard = bathTemperature(number, unit, near === undefined ? undefined : celsius(near));
  expect(heard.ok && heard.value).toBeCloseTo(c, 3);
});

test("whatever is said, what is taken is between 0 and 60 °C", () => {
  fc.assert(
    fc.property(fc.double(), fc.constantFrom("C" as const, "F" as const), (number, unit) => {
      const heard = bathTemperature(number, unit, celsius(20));
      if (heard.ok) expect(heard.value >= 0 && heard.value <= 60).toBe(true);
      else expect(explainBathTemperature(heard.error)).not.toContain("NaN");
    }),
  );
});

test("a temperature that water cannot have is named", () => {
  expect(checkTemperatures({ room: 20, tank: 100 })).toBeUndefined();
  const boiling = checkTemperatures({ room: 20, tank: 101 });
  expect(boiling).toEqual({ kind: "impossible-temperature", what: "tank", temperature: 101 });
  expect(boiling && explainImpossible(boiling)).toContain("101 °C (213.8 °F) for the tank");
  const none = checkTemperatures({ room: Number.NaN });
  expect(none && explainImpossible(none)).toBe(
    "I need a temperature from 0 to 100 °C for the room.",
  );
});
