import { expect, test } from "vitest";
import { readAll, readWhole } from "../../../test/support/reading.ts";
import { readArea } from "./area.ts";
import { readFormula } from "./formula.ts";
import { readHeat } from "./heat.ts";

test.each([
  ["60", { degrees: 60 }],
  ["sixty", { degrees: 60 }],
  ["sixty degrees", { degrees: 60 }],
  ["60 c", { degrees: 60, scale: "C" }],
  ["100 °F", { degrees: 100, scale: "F" }],
  ["thirty seven five", { degrees: 37.5 }],
  ["one twenty fahrenheit", { degrees: 120, scale: "F" }],
  ["minus 5", { degrees: -5 }],
])("a heat keeps what was said of its scale: %j", (phrase, value) => {
  expect(readWhole(readHeat, phrase)).toEqual(value);
});

test.each(["warm", "a", "1+9"])("%j is no heat", (phrase) => {
  expect(readWhole(readHeat, phrase)).toBe("nothing");
});

test.each([
  ["d-76", "d-76"],
  ["D76", "d-76"],
  ["d 76", "d-76"],
  ["d seventy six", "d-76"],
  ["ID-11", "d-76"],
  ["i d eleven", "d-76"],
  ["s b eight", "sb-8"],
  ["sb 8", "sb-8"],
  ["f five", "f-5"],
])("the formula %j is %j", (phrase, id) => {
  expect(readWhole(readFormula, phrase)).toBe(id);
});

test("a formula does not take the volume behind it", () => {
  expect(readAll(readFormula, "sb-8 2 litres")).toEqual([["sb-8", 1]]);
  expect(readWhole(readFormula, "d-77")).toBe("nothing");
});

test.each([
  ["80 sq in", 80],
  ["eighty square inches", 80],
  ["6.4516 cm2", 1],
  ["516.128 square centimetres", 80],
])("the area %j is %d sq in", (phrase, in2) => {
  expect(readWhole(readArea, phrase)).toBeCloseTo(in2, 9);
});
