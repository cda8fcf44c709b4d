import fc from "fast-check";
import { expect, test } from "vitest";
import { choicesOf, readAll, readWhole } from "../../../test/support/reading.ts";
import { celsius } from "../../domain/units/quantity.ts";
import { showCelsius } from "../../domain/units/show.ts";
import { readTemperature } from "./temperature.ts";

/** Fahrenheit pairs from the definition: °C = (°F - 32) x 5/9 (NIST SP 811, appendix B). */
test.each([
  ["38 c", 38],
  ["38c", 38],
  ["37.8 °C", 37.8],
  ["38 degrees celsius", 38],
  ["100 f", 37.7777778],
  ["100°F", 37.7777778],
  ["100 degrees fahrenheit", 37.7777778],
  ["a hundred degrees fahrenheit", 37.7777778],
  ["-40 f", -40],
  ["thirty seven point five", 37.5],
  ["thirty seven five", 37.5],
  ["thirty-seven four degrees", 37.4],
  ["ninety eight six", 37],
  ["one oh two", 38.8888889],
  ["20 degrees", 20],
  ["38", 38],
  ["75", 23.8888889],
  ["102", 38.8888889],
  ["300 c", 300],
  ["-300 °c", -300],
  ["thirty seven and a half", 37.5],
])("%j on a new bench is %d °C", (phrase, value) => {
  expect(readWhole(readTemperature, phrase)).toBeCloseTo(value, 6);
});

test.each([
  ["C", "38", 38],
  ["C", "64", 64],
  ["F", "60", 15.5555556],
  ["F", "150", 65.5555556],
  ["C", "100 f", 37.7777778],
  ["F", "38 c", 38],
] as const)("on a %s bench %j is %d °C", (degrees, phrase, value) => {
  expect(readWhole(readTemperature, phrase, { degrees })).toBeCloseTo(value, 6);
});

test.each([
  ["C", "100"],
  ["F", "38"],
  ["F", "20 degrees"],
  [undefined, "300"],
  [undefined, "-5"],
] as const)("on a %s bench %j is asked", (degrees, phrase) => {
  expect(readWhole(readTemperature, phrase, { degrees })).toMatchObject({ unsettled: "degrees" });
});

test("the question carries both answers", () => {
  expect(choicesOf(readWhole(readTemperature, "212", { degrees: "C" }))).toEqual({
    celsius: 212,
    fahrenheit: 100,
  });
});

test.each(["1e309 c", "1e309", "nan degrees", "1e308 f"])("%j is refused", (phrase) => {
  expect(readWhole(readTemperature, phrase)).toHaveProperty("unreadable");
});

test.each(["degrees", "a", "c", "38 ml", "half a degree"])("%j is no temperature", (phrase) => {
  expect(readWhole(readTemperature, phrase)).toBe("nothing");
});

test("a scale that was said is never left to the next slot", () => {
  const first = (phrase: string) => readAll(readTemperature, phrase).map(([, next]) => next);
  expect(first("38 f for 3 minutes")).toEqual([2]);
  expect(first("38 degrees c")).toEqual([3]);
});

test("what is shown reads back", () => {
  fc.assert(
    fc.property(fc.double({ min: -20, max: 200, noNaN: true }), (amount) => {
      const shown = showCelsius(celsius(amount));
      const back = readWhole(readTemperature, shown);
      expect(showCelsius(celsius(back as number))).toBe(shown);
    }),
  );
});
