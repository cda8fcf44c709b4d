import fc from "fast-check";
import { expect, test } from "vitest";
import { volumeIn, volumeTo } from "../units/conversions.ts";
import { millilitres } from "../units/quantity.ts";
import {
  afterStandstill,
  areaForVolume,
  perUnit,
  removeFirst,
  replenisherFor,
} from "./replenish.ts";

const ml = millilitres;
const E6 = "E-6 manual, Section 2, Table 2-1 (read)";

test.each([
  { gallons: 25, rate: 200, ft2: 475, within: 3 },
  { gallons: 100, rate: 100, ft2: 3780, within: 10 },
  { gallons: 5, rate: 20, ft2: 950, within: 5 },
])(`$gallons US gallons at $rate mL/ft² take $ft2 ft²: ${E6}`, ({ gallons, rate, ft2, within }) => {
  const area = areaForVolume(volumeIn(gallons, "gallon", "us"), rate) / 144;
  expect(Math.abs(area - ft2)).toBeLessThanOrEqual(within);
});

test("200 mL/ft² is 111.1 mL for a unit of 80 sq in: derived from E-6 Table 2-1", () => {
  expect(perUnit(200)).toBeCloseTo(111.1, 1);
  expect(replenisherFor(3, perUnit(200))).toBeCloseTo(333.3, 1);
});

test("3 % after two days, 3.84 of 128 fl oz: SS0514, p. 2-15, para. c (read)", () => {
  const add = afterStandstill(volumeIn(128, "fl oz", "us"), 2);
  expect(volumeTo(add, "fl oz", "us")).toBeCloseTo(3.84, 9);
});

test("nothing for a day; 6 % after four", () => {
  expect(afterStandstill(ml(1000), 1)).toBe(0);
  expect(afterStandstill(ml(1000), 4)).toBeCloseTo(60, 9);
});

test("8 fl oz after 800 sq in is 1 fl oz per 100 sq in: SS0513, p. 23 (read)", () => {
  const rate = volumeIn(8, "fl oz", "us") / (800 / 80);
  expect(volumeTo(replenisherFor(10, rate), "fl oz", "us")).toBeCloseTo(8, 9);
  expect(volumeTo(replenisherFor(1.25, rate), "fl oz", "us")).toBeCloseTo(1, 9);
});

test("half a gallon in, 0.2 carried out: 0.3 goes out first, SS0520, para. (2) (read)", () => {
  const gallon = (value: number) => volumeIn(value, "gallon", "us");
  expect(volumeTo(removeFirst(gallon(0.5), gallon(0.2)), "gallon", "us")).toBeCloseTo(0.3, 9);
});

test("a bottle never runs over: out first plus carried out is at least what goes in", () => {
  const volume = fc.double({ min: 0, max: 5000, noNaN: true });
  const law = fc.property(volume, volume, (into, carried) => {
    expect(removeFirst(ml(into), ml(carried)) + carried).toBeGreaterThanOrEqual(into - 1e-9);
  });
  fc.assert(law);
});
