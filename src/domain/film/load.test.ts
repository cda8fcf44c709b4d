import fc from "fast-check";
import { expect, test } from "vitest";
import { areaToCm2 } from "../units/conversions.ts";
import { squareInches } from "../units/quantity.ts";
import {
  areaOrigin,
  filmArea,
  filmFormats,
  filmUnits,
  rollCount,
  showFilm,
  UNIT_IN2,
} from "./load.ts";

const CB = "The Darkroom Cookbook, 3rd ed., p. 108";

test.each([
  { source: `${CB}: the 80 sq in unit (read), its equals from memory`, format: "135-36", in2: 80 },
  { source: `${CB}: the 80 sq in unit (read), its equals from memory`, format: "120", in2: 80 },
  { source: "arithmetic: 4 in by 5 in", format: "4x5", in2: 20 },
  { source: "arithmetic: 5 in by 7 in", format: "5x7", in2: 35 },
  { source: "arithmetic: 8 in by 10 in", format: "8x10", in2: 80 },
  {
    source: "ISO 732:2000: 220 is twice the length of 120 (from memory)",
    format: "220",
    in2: 160,
  },
  { source: "about 0.7 of a 36 roll: common practice, no source", format: "135-24", in2: 56 },
  { source: "about 0.4 of a 36 roll: common practice, no source", format: "135-12", in2: 32 },
] as const)("$format is $in2 sq in, $source", ({ format, in2 }) => {
  expect(filmArea([{ format, count: 1 }])).toBe(in2);
});

test("a unit is 516.13 cm²: The Darkroom Cookbook, 3rd ed., p. 108, 80 sq in (read)", () => {
  expect(UNIT_IN2).toBe(80);
  expect(areaToCm2(squareInches(UNIT_IN2))).toBeCloseTo(516.13, 2);
});

test("a unit goes 1.8 times into a square foot and 19.375 times into a square metre: own arithmetic (derived)", () => {
  expect(144 / UNIT_IN2).toBeCloseTo(1.8, 9);
  expect(10_000 / areaToCm2(squareInches(UNIT_IN2))).toBeCloseTo(19.375, 2);
});

test("a 120 roll measures 61.5 by 825 mm, within a tenth of a unit: ISO 732:2000, dimensions (from memory)", () => {
  const cm2 = 6.15 * 82.5;
  expect(cm2).toBeCloseTo(507.4, 1);
  const inUnits = cm2 / areaToCm2(filmArea([{ format: "120", count: 1 }]));
  expect(Math.abs(inUnits - 1)).toBeLessThan(0.1);
});

test.each([
  { load: [], units: 0, words: "no film" },
  { load: [{ format: "135-36", count: 1 }], units: 1, words: "1 roll of 135-36" },
  { load: [{ format: "4x5", count: 4 }], units: 1, words: "4 sheets of 4x5" },
  { load: [{ format: "8x10", count: 1 }], units: 1, words: "1 sheet of 8x10" },
  {
    load: [
      { format: "120", count: 2 },
      { format: "135-24", count: 1 },
    ],
    units: 2.7,
    words: "2 rolls of 120 and 1 roll of 135-24",
  },
] as const)("$words are $units units", ({ load, units, words }) => {
  expect(filmUnits(load)).toBeCloseTo(units, 12);
  expect(showFilm(load)).toBe(words);
});

test("a load is as well founded as its weakest format", () => {
  const one = (format: (typeof filmFormats)[number]) => ({ format, count: 1 });
  expect(areaOrigin([one("120")]).kind).toBe("published");
  expect(areaOrigin([one("120"), one("5x7")]).kind).toBe("computed");
  expect(areaOrigin([one("5x7"), one("135-24")]).kind).toBe("common practice");
  expect(areaOrigin([one("220"), one("135-24")]).kind).toBe("from memory");
});

test("the equality of the films is not claimed to have been read", () => {
  expect(areaOrigin([{ format: "135-36", count: 1 }]).source).toContain("from memory");
});

test("loads add up", () => {
  const film = fc.record({
    format: fc.constantFrom(...filmFormats),
    count: fc.integer({ min: 1, max: 40 }),
  });
  const sums = fc.property(fc.array(film), fc.array(film), (one, other) => {
    expect(filmUnits([...one, ...other])).toBeCloseTo(filmUnits(one) + filmUnits(other), 9);
    expect(rollCount([...one, ...other])).toBe(rollCount(one) + rollCount(other));
  });
  fc.assert(sums);
});
