import { expect, test } from "vitest";
import { choicesOf, readWhole } from "../../../test/support/reading.ts";
import { readDifference } from "./difference.ts";

test.each([
  ["half a degree celsius", 0.5],
  ["2 °c", 2],
  ["1 degree fahrenheit", 5 / 9],
  ["9 f degrees", 5],
  ["plus or minus 0.3 c", 0.3],
  ["±0.3 c", 0.3],
  ["-1 c", -1],
])("%j is %d Celsius degrees", (phrase, value) => {
  expect(readWhole(readDifference, phrase)).toBeCloseTo(value, 9);
});

test("the bench's scale decides where none was said", () => {
  expect(readWhole(readDifference, "half a degree", { degrees: "C" })).toBe(0.5);
  expect(readWhole(readDifference, "a degree", { degrees: "F" })).toBeCloseTo(5 / 9, 9);
  expect(choicesOf(readWhole(readDifference, "9 degrees"))).toEqual({ celsius: 9, fahrenheit: 5 });
});

test.each(["1e309 c", "nan degrees"])("%j is refused", (phrase) => {
  expect(readWhole(readDifference, phrase)).toHaveProperty("unreadable");
});
