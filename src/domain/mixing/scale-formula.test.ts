import fc from "fast-check";
import { expect, test } from "vitest";
import { millilitres as ml } from "../units/quantity.ts";
import { mass, sizeOf, volume } from "./amount.ts";
import { explainFormula, type Formula, scaleFormula } from "./scale-formula.ts";

/** British Journal of Photography formulae, formula 6, bleach (read-secondary). */
const bleach: Formula = {
  total: ml(1000),
  ingredients: [
    { name: "ferricyanide", amount: mass(80) },
    { name: "potassium bromide", amount: mass(20) },
    { name: "disodium phosphate", amount: mass(20) },
    { name: "bisulfate", amount: mass(12) },
  ],
};
/** The Darkroom Cookbook, 3rd ed., p. 268, Formula 121 (read). */
const rinse: Formula = {
  total: ml(1000),
  startWater: ml(500),
  ingredients: [
    { name: "acetic acid, 28 %", amount: volume(32) },
    { name: "sodium sulfate", amount: mass(45) },
  ],
};

const scaled = (formula: Formula, wanted: number, most?: number) => {
  const done = scaleFormula(formula, ml(wanted), most === undefined ? undefined : ml(most));
  if (!done.ok) throw new Error(explainFormula(done.error));
  return done.value;
};

test("a quarter litre takes a quarter of each, in order, and no start water is made up", () => {
  const done = scaled(bleach, 250);
  expect(done.ingredients).toEqual([
    { name: "ferricyanide", amount: mass(20) },
    { name: "potassium bromide", amount: mass(5) },
    { name: "disodium phosphate", amount: mass(5) },
    { name: "bisulfate", amount: mass(3) },
  ]);
  expect(done.startWater).toBeUndefined();
});

test("start water, mL and g scale together and what else an ingredient carries is kept", () => {
  const tagged: Formula = {
    ...rinse,
    ingredients: rinse.ingredients.map((each) => ({ ...each, compound: "x" })),
  };
  const done = scaled(tagged, 2000);
  expect(done).toEqual({
    total: 2000,
    startWater: 1000,
    ingredients: [
      { name: "acetic acid, 28 %", amount: volume(64), compound: "x" },
      { name: "sodium sulfate", amount: mass(90), compound: "x" },
    ],
  });
});

test.each([
  { wanted: 0, says: "I read 0 mL" },
  { wanted: -1, says: "I read -1 mL" },
  { wanted: 10_000_000, says: "I go up to 200 L" },
])("$wanted mL is refused", ({ wanted, says }) => {
  const done = scaleFormula(rinse, ml(wanted));
  expect(done.ok ? "" : explainFormula(done.error)).toContain(says);
});

test("the limit is a parameter", () => {
  expect(scaled(rinse, 900, 900).total).toBe(900);
  expect(() => scaled(rinse, 901, 900)).toThrow("go up to 900 mL");
});

test("liquids above the mark are refused by how much", () => {
  const full: Formula = { ...rinse, startWater: ml(990) };
  const done = scaleFormula(full, ml(2000));
  expect(done).toEqual({
    ok: false,
    error: { kind: "overfull", total: 2000, startWater: 1980, liquids: 64, by: 44 },
  });
  expect(done.ok ? "" : explainFormula(done.error)).toContain("44 mL more than the 2 L mark");
});

test("scaling is linear and undoes itself", () => {
  const linear = fc.property(fc.double({ min: 1, max: 90_000, noNaN: true }), (wanted) => {
    const once = scaled(rinse, wanted);
    const twice = scaled(rinse, 2 * wanted);
    const back = scaled(once, 1000);
    for (const [i, { amount }] of once.ingredients.entries()) {
      const double = twice.ingredients[i]?.amount;
      const printed = rinse.ingredients[i]?.amount;
      const again = back.ingredients[i]?.amount;
      expect(double && sizeOf(double) / 2).toBeCloseTo(sizeOf(amount), 6);
      expect(again && sizeOf(again)).toBeCloseTo(printed ? sizeOf(printed) : Number.NaN, 6);
      expect(double?.kind).toBe(amount.kind);
    }
  });
  fc.assert(linear);
});
