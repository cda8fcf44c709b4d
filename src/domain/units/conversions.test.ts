import fc from "fast-check";
import { unit } from "mathjs";
import { describe, expect, test } from "vitest";
import {
  areaFromCm2,
  areaToCm2,
  type Country,
  differenceFromFahrenheit,
  differenceToFahrenheit,
  fromFahrenheit,
  type MassUnit,
  massIn,
  massTo,
  needsCountry,
  toFahrenheit,
  type VolumeUnit,
  volumeIn,
  volumeTo,
} from "./conversions.ts";
import { celsius, celsiusDifference, grams, millilitres, squareInches } from "./quantity.ts";

const NISTX = "Exact capacity and mass values derived from NIST tables, master chart (read)";
const NISTV = "General Tables of Units of Measurement, p. 381-382 (read)";
const SI = "SI / NIST SP 811 definitions (from memory)";

test.each<{
  amount: number;
  name: VolumeUnit;
  country: Country;
  ml: number;
  within: number;
  source: string;
}>([
  { amount: 1, name: "fl oz", country: "us", ml: 29.5735295625, within: 1e-9, source: NISTX },
  { amount: 1, name: "fl oz", country: "imperial", ml: 28.4130625, within: 1e-9, source: NISTX },
  { amount: 1, name: "gallon", country: "us", ml: 3785.411784, within: 1e-9, source: NISTV },
  { amount: 1, name: "pint", country: "us", ml: 473.176473, within: 1e-9, source: NISTX },
  {
    amount: 1,
    name: "quart",
    country: "us",
    ml: 946.352946,
    within: 1e-9,
    source: "SI definitions: a quart is two pints (derived)",
  },
  { amount: 1, name: "gallon", country: "imperial", ml: 4546.09, within: 1e-9, source: SI },
  { amount: 160, name: "fl oz", country: "imperial", ml: 4546.09, within: 1e-9, source: SI },
  { amount: 1, name: "cup", country: "us", ml: 237, within: 0.5, source: NISTV },
  { amount: 1, name: "dram", country: "us", ml: 3.697, within: 0.0005, source: NISTV },
  { amount: 1, name: "dram", country: "imperial", ml: 3.552, within: 0.0005, source: NISTV },
  {
    amount: 487,
    name: "minim",
    country: "us",
    ml: 30,
    within: 0.01,
    source: "Photographics Lessons, Lesson Z, para. 368 table: 30 cc is 1 oz 7 minims (read)",
  },
  {
    amount: 8,
    name: "fl oz",
    country: "us",
    ml: 237,
    within: 0.5,
    source: "common practice, no source: steel 35 mm reel",
  },
  {
    amount: 16,
    name: "fl oz",
    country: "us",
    ml: 473,
    within: 0.5,
    source: "common practice, no source: steel 120 reel",
  },
])("$amount $country $name is $ml mL: $source", ({ amount, name, country, ml, within }) => {
  expect(Math.abs(volumeIn(amount, name, country) - ml)).toBeLessThanOrEqual(within);
});

test("a US fluid ounce is 4 % larger than an Imperial one: NIST tables, master chart (read)", () => {
  const ratio = volumeIn(1, "fl oz", "us") / volumeIn(1, "fl oz", "imperial");
  expect(Math.abs(ratio - 1.0408)).toBeLessThanOrEqual(0.0001);
});

test("30 mL is 1.01442 US fl oz: Photographics Lessons, Lesson Z, para. 368 table (read)", () => {
  expect(volumeTo(millilitres(30), "fl oz", "us")).toBeCloseTo(1.01442, 5);
});

test.each<{ amount: number; name: MassUnit; g: number; within: number; source: string }>([
  { amount: 1, name: "oz", g: 28.349523125, within: 1e-12, source: NISTX },
  { amount: 1, name: "lb", g: 453.59237, within: 1e-12, source: NISTX },
  { amount: 1, name: "grain", g: 0.06479891, within: 1e-12, source: `${NISTX}; grain derived` },
  {
    amount: 437.5,
    name: "grain",
    g: 28.349523125,
    within: 1e-9,
    source:
      "Subcourse SS0513, Photographic Quality Control, p. 22: 437.5 grains to the ounce (read)",
  },
])("$amount $name is $g g: $source", ({ amount, name, g, within }) => {
  expect(Math.abs(massIn(amount, name) - g)).toBeLessThanOrEqual(within);
});

test.each([
  { percent: 1, printed: 4.37 },
  { percent: 5, printed: 21.87 },
  { percent: 10, printed: 43.75 },
])(
  "$percent % of an ounce is $printed grains: Studio Light 1918, Percentage Solutions (read)",
  ({ percent, printed }) => {
    const grains = massTo(massIn(percent / 100, "oz"), "grain");
    expect(Math.abs(grains - printed)).toBeLessThanOrEqual(0.01);
  },
);

test.each([
  { f: 100, c: 37.8, source: "Minilab Processors, Z-131 section 4, Table 4-1 (read)" },
  { f: 98, c: 36.7, source: "Module 9, Process ECP-2E, p. 9-11 footnote * (read)" },
  { f: 102, c: 38.9, source: "personal weblog, May 2018 (common practice)" },
  { f: 110, c: 43.3, source: "personal weblog, May 2018, mixing tip (common practice)" },
  { f: 125, c: 51.67, source: "Subcourse SS0573, para. d, its misprint 50.7 corrected (read)" },
  { f: 106, c: 41.1, source: "Process ECP-2A and ECN-2 table for hand processing (read)" },
  { f: 68, c: 20, source: "NAVEDTRA 14209, Photography (Basic), p. 10-15 (read)" },
  { f: 75, c: 23.9, source: "NAVEDTRA 14209, p. 10-15, prints 24 (read)" },
  { f: 90, c: 32.2, source: "The Darkroom Cookbook, 3rd ed., p. 268, prints 32 (read)" },
])("$f °F is $c °C: $source", ({ f, c }) => {
  expect(fromFahrenheit(f)).toBeCloseTo(c, Number.isInteger(c * 10) ? 1 : 2);
  expect(toFahrenheit(celsius(((f - 32) * 5) / 9))).toBeCloseTo(f, 9);
});

test.each([
  { f: 0.25, printed: 0.15, source: "Minilab Processors, Z-131 section 4, Table 4-1 (read)" },
  { f: 18, printed: 10, source: "TM 11-2323, cold-climate paragraph c (read)" },
])("a difference of $f °F is $printed °C, rounded up: $source", ({ f, printed }) => {
  const difference = differenceFromFahrenheit(f);
  expect(difference).toBeLessThanOrEqual(printed);
  expect(printed - difference).toBeLessThan(0.02);
});

const UNIT_AREA = "The Darkroom Cookbook, 3rd ed., p. 108: 80 in² counting unit (read)";
test.each([
  { what: "a unit of film", cm2: 516.13, in2: 80, within: 0.002, source: UNIT_AREA },
  {
    what: "a 36-exposure strip of 1.60 m",
    cm2: 559.6,
    in2: 87,
    within: 0.5,
    source: "from memory",
  },
  {
    what: "a 36-exposure strip of 1.65 m",
    cm2: 577.1,
    in2: 89,
    within: 0.5,
    source: "from memory",
  },
  {
    what: "a 120 roll",
    cm2: 507.4,
    in2: 78.6,
    within: 0.1,
    source: "ISO 732, dimension table (from memory)",
  },
  {
    what: "a square foot",
    cm2: 929.0304,
    in2: 144,
    within: 1e-9,
    source: "own arithmetic (derived)",
  },
  {
    what: "a square metre",
    cm2: 10_000,
    in2: 19.375 * 80,
    within: 0.4,
    source: "own arithmetic: 19.375 units (derived)",
  },
])("$what: $cm2 cm² is $in2 in²: $source", ({ cm2, in2, within }) => {
  expect(Math.abs(areaFromCm2(cm2) - in2)).toBeLessThanOrEqual(within);
  expect(areaToCm2(areaFromCm2(cm2))).toBeCloseTo(cm2, 9);
});

describe("against mathjs as a reference library", () => {
  test.each<{ ours: VolumeUnit; theirs: string }>([
    { ours: "mL", theirs: "ml" },
    { ours: "L", theirs: "liter" },
    { ours: "fl oz", theirs: "fluidounce" },
    { ours: "pint", theirs: "pint" },
    { ours: "quart", theirs: "quart" },
    { ours: "gallon", theirs: "gallon" },
    { ours: "cup", theirs: "cup" },
    { ours: "dram", theirs: "fluiddram" },
  ])("one US $ours", ({ ours, theirs }) => {
    expect(volumeIn(1, ours, "us")).toBeCloseTo(unit(1, theirs).toNumber("ml"), 6);
  });

  // The library rounds its minim to 0.06161152 mL.
  test("one US minim", () => {
    expect(volumeIn(1, "minim", "us")).toBeCloseTo(unit(1, "minim").toNumber("ml"), 7);
  });

  test.each<{ ours: MassUnit; theirs: string }>([
    { ours: "mg", theirs: "mg" },
    { ours: "g", theirs: "g" },
    { ours: "kg", theirs: "kg" },
    { ours: "oz", theirs: "ounce" },
    { ours: "lb", theirs: "lbm" },
    { ours: "grain", theirs: "grain" },
  ])("one $ours", ({ ours, theirs }) => {
    expect(massIn(1, ours)).toBeCloseTo(unit(1, theirs).toNumber("g"), 9);
  });

  test.each([-40, 0, 68, 100, 212])("%d °F and a square inch", (f) => {
    expect(fromFahrenheit(f)).toBeCloseTo(unit(f, "degF").toNumber("degC"), 9);
    expect(areaToCm2(squareInches(1))).toBeCloseTo(unit(1, "sqin").toNumber("cm2"), 9);
  });
});

const volumeUnits: readonly VolumeUnit[] = [
  "mL",
  "L",
  "fl oz",
  "pint",
  "quart",
  "gallon",
  "cup",
  "dram",
  "minim",
];
const massUnits: readonly MassUnit[] = ["mg", "g", "kg", "oz", "lb", "grain"];
const countries: readonly Country[] = ["us", "imperial"];
const amount = fc.double({ min: 0.001, max: 1e6, noNaN: true });
const same = (one: number, other: number): void => {
  expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(other)));
};

test("every volume comes back from every unit of both countries", () => {
  const back = fc.property(
    amount,
    fc.constantFrom(...volumeUnits),
    fc.constantFrom(...countries),
    (n, name, country) => same(volumeTo(volumeIn(n, name, country), name, country), n),
  );
  fc.assert(back);
});

test("every mass, temperature, difference and area comes back", () => {
  fc.assert(
    fc.property(amount, fc.constantFrom(...massUnits), (n, u) => same(massTo(massIn(n, u), u), n)),
  );
  fc.assert(
    fc.property(fc.double({ min: -50, max: 150, noNaN: true }), (t) => {
      same(fromFahrenheit(toFahrenheit(celsius(t))), t);
      same(differenceFromFahrenheit(differenceToFahrenheit(celsiusDifference(t))), t);
    }),
  );
  fc.assert(fc.property(amount, (n) => same(areaFromCm2(areaToCm2(squareInches(n))), n)));
});

test("a difference leaves out the 32, a temperature does not", () => {
  expect(differenceFromFahrenheit(9)).toBe(5);
  expect(differenceToFahrenheit(celsiusDifference(5))).toBe(9);
  expect(fromFahrenheit(32)).toBe(0);
});

test("only ounces and their kin have a country", () => {
  expect(volumeUnits.filter((name) => !needsCountry(name))).toEqual(["mL", "L"]);
  expect(massTo(grams(1000), "kg")).toBe(1);
});
