import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { massIn, massTo, volumeIn } from "../units/conversions.ts";
import { millilitres as ml } from "../units/quantity.ts";
import { type Amount, mass, volume } from "./amount.ts";
import type { Formula } from "./scale-formula.ts";
import {
  basisVolume,
  equivalentFormula,
  formulaEquivalent,
  gramsPerLitre,
  IMPERIAL_BASIS,
  literal,
  literalFormula,
  millilitresPerLitre,
  type UsMeasure,
} from "./us-formula.ts";

const CB326 = "The Darkroom Cookbook, 3rd ed., p. 326 (read)";
const CB329 = "The Darkroom Cookbook, 3rd ed., p. 329 (read)";
const TC2 = "Kodak Limited (Harrow) formulary, TC-2 stock A (read)";

const grains = (measure: UsMeasure) => (measure.kind === "mass" ? measure.grains : Number.NaN);
const ounces = (measure: UsMeasure) => (measure.kind === "mass" ? measure.ounces : Number.NaN);
const fluid = (measure: UsMeasure) =>
  measure.kind === "volume" ? measure.fluidOunces : Number.NaN;

describe("formula-equivalent, per 32 US fl oz", () => {
  test.each([
    {
      factor: "grains",
      found: grains(formulaEquivalent(mass(1))),
      printed: 14.6,
      within: 0.01,
      source: CB326,
    },
    {
      factor: "ounces",
      found: ounces(formulaEquivalent(mass(1))),
      printed: 0.03338,
      within: 1e-5,
      source: CB326,
    },
    {
      factor: "pounds",
      found: ounces(formulaEquivalent(mass(1))) / 16,
      printed: 0.002086,
      within: 1e-6,
      source: CB326,
    },
    {
      factor: "g/L for an ounce",
      found: gramsPerLitre(massIn(1, "oz")),
      printed: 29.96,
      within: 0.005,
      source: CB326,
    },
    {
      factor: "g/L for an ounce, rule of thumb",
      found: gramsPerLitre(massIn(1, "oz")),
      printed: 30,
      within: 0.05,
      source: CB326,
    },
    {
      factor: "fl oz for 250 mL",
      found: fluid(formulaEquivalent(volume(250))),
      printed: 8,
      within: 1e-9,
      source: CB329,
    },
    {
      factor: "fl oz for 300 mL",
      found: fluid(formulaEquivalent(volume(300))),
      printed: 9.6,
      within: 1e-9,
      source: CB329,
    },
    {
      factor: "fl oz for 500 mL",
      found: fluid(formulaEquivalent(volume(500))),
      printed: 16,
      within: 1e-9,
      source: CB329,
    },
    {
      factor: "mL for 16 fl oz",
      found: millilitresPerLitre(16),
      printed: 500,
      within: 1e-9,
      source: "Subcourse SS0573, hypo eliminator (read)",
    },
    {
      factor: "mL for 4 fl oz",
      found: millilitresPerLitre(4),
      printed: 125,
      within: 1e-9,
      source: "Subcourse SS0573, hypo eliminator (read)",
    },
    {
      factor: "mL for 3 1/4 fl oz",
      found: millilitresPerLitre(3.25),
      printed: 101.6,
      within: 0.05,
      source: "Subcourse SS0573, hypo eliminator, prints 100 (read)",
    },
    {
      factor: "fl oz for 48 mL",
      found: fluid(formulaEquivalent(volume(48))),
      printed: 1.5,
      within: 0.04,
      source: "J-1, SB-1 (from memory)",
    },
  ])("$factor: $printed, $source", ({ found, printed, within }) => {
    expect(Math.abs(found - printed)).toBeLessThanOrEqual(within);
  });

  test.each([
    { what: "metol", g: 2, printed: 29, exact: 29.2, within: 1 },
    { what: "sulfite", g: 100, printed: 1457.5, exact: 1460.4, within: 5 },
    { what: "hydroquinone", g: 5, printed: 73, exact: 73, within: 1 },
    { what: "borax", g: 2, printed: 29, exact: 29.2, within: 1 },
  ])("D-76 $what: $printed grains, J-1 (from memory); $exact by the compound rule", (row) => {
    const found = grains(formulaEquivalent(mass(row.g)));
    expect(Math.abs(found - row.printed)).toBeLessThanOrEqual(row.within);
    expect(Math.abs(found - row.exact)).toBeLessThanOrEqual(0.1);
  });
});

test.each([
  {
    what: "5 g/L is 175 grains",
    found: grains(formulaEquivalent(mass(5), IMPERIAL_BASIS)),
    printed: 175,
    within: 1,
  },
  {
    what: "10 cc/L is 6.4 drachms",
    found: 8 * fluid(formulaEquivalent(volume(10), IMPERIAL_BASIS)),
    printed: 6.4,
    within: 1e-9,
  },
  {
    what: "the basis is 2273.0 mL",
    found: basisVolume(IMPERIAL_BASIS),
    printed: 2273,
    within: 0.05,
  },
])(`per 80 Imperial fl oz, $what: ${TC2}`, ({ found, printed, within }) => {
  expect(Math.abs(found - printed)).toBeLessThanOrEqual(within);
});

test("literal keeps the amount: 500 mL is 16.91 US fl oz, a gram is a gram: The Darkroom Cookbook, 3rd ed., p. 329 and arithmetic (derived)", () => {
  expect(fluid(literal(volume(500)))).toBeCloseTo(16.91, 2);
  expect(fluid(literal(volume(500), "imperial"))).toBeCloseTo(17.6, 1);
  expect(grains(literal(mass(1)))).toBeCloseTo(15.4324, 4);
  expect(ounces(literal(mass(100)))).toBeCloseTo(3.5274, 4);
});

const acid: Formula = {
  total: ml(2000),
  startWater: ml(1000),
  ingredients: [
    { name: "acid", amount: volume(96) },
    { name: "salt", amount: mass(90) },
  ],
};

test("a whole formula, both ways, under different names", () => {
  const same = literalFormula(acid);
  expect(same.mode).toBe("literal");
  expect(same.total).toBe(2000);
  expect(same.ingredients.map((each) => each.literal)).toEqual([
    literal(volume(96)),
    literal(mass(90)),
  ]);

  const other = equivalentFormula(acid);
  expect(other.mode).toBe("formula-equivalent");
  expect(other.total).toBeCloseTo(volumeIn(1, "quart", "us"), 9);
  expect(other.startWaterFluidOunces).toBe(16);
  expect(fluid(other.ingredients[0]?.equivalent ?? literal(mass(0)))).toBeCloseTo(1.536, 9);
  expect(grains(other.ingredients[1]?.equivalent ?? literal(volume(0)))).toBeCloseTo(657.2, 1);
  const noStart: Formula = { total: acid.total, ingredients: acid.ingredients };
  expect(equivalentFormula(noStart).startWaterFluidOunces).toBeUndefined();
  // @ts-expect-error a literal formula carries no equivalent
  expect(same.ingredients[0]?.equivalent).toBeUndefined();
});

test("equivalent is the literal measure of the formula scaled to the basis, and comes back", () => {
  const size = fc.double({ min: 0.01, max: 1000, noNaN: true });
  const back = fc.property(size, (n) => {
    const perLitre: Amount = mass(n);
    const found = formulaEquivalent(perLitre);
    expect(gramsPerLitre(massIn(grains(found), "grain"))).toBeCloseTo(n, 6);
    expect(millilitresPerLitre(fluid(formulaEquivalent(volume(n))))).toBeCloseTo(n, 6);
    expect(ounces(found) * 437.5).toBeCloseTo(grains(found), 6);
    expect(massTo(massIn(ounces(found), "oz"), "g")).toBeCloseTo(n * 0.946352946, 6);
  });
  fc.assert(back);
});
