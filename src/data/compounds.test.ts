import { MF } from "mf-parser";
import { expect, test } from "vitest";
import { compounds, compoundsSchema } from "./compounds.ts";

const found = (formula: string) => compounds.find((compound) => compound.formula === formula);

const WEIGHTS = "standard atomic weights, CRC Handbook / IUPAC (weights from memory; derived)";
test.each([
  { formula: "Na2SO3", molarMass: 126.04, source: WEIGHTS },
  { formula: "Na2SO3(H2O)7", molarMass: 252.14, source: WEIGHTS },
  { formula: "Na2CO3", molarMass: 105.99, source: WEIGHTS },
  { formula: "Na2CO3(H2O)", molarMass: 124.0, source: WEIGHTS },
  { formula: "Na2CO3(H2O)10", molarMass: 286.14, source: WEIGHTS },
  { formula: "Na2S2O3", molarMass: 158.1, source: WEIGHTS },
  { formula: "Na2S2O3(H2O)5", molarMass: 248.17, source: WEIGHTS },
  { formula: "Na2B4O7(H2O)10", molarMass: 381.36, source: WEIGHTS },
  { formula: "Na2B4O7(H2O)5", molarMass: 291.29, source: WEIGHTS },
  { formula: "K2CO3", molarMass: 138.2, source: WEIGHTS },
  { formula: "NaOH", molarMass: 40.0, source: WEIGHTS },
  { formula: "KOH", molarMass: 56.11, source: WEIGHTS },
  { formula: "NaBr", molarMass: 102.89, source: WEIGHTS },
  { formula: "KBr", molarMass: 119.0, source: WEIGHTS },
  { formula: "C11H20N2O5S", molarMass: 292.35, source: WEIGHTS },
])("$formula is $molarMass g/mol within 0.05: $source", ({ formula, molarMass }) => {
  expect(Math.abs((found(formula)?.molarMass ?? Number.NaN) - molarMass)).toBeLessThanOrEqual(0.05);
});

test("4.5 g/L of CD-4 sulfate is about 0.015 mol/L: online encyclopaedia article, overview (read-secondary)", () => {
  const molar = 4.5 / (found("C11H20N2O5S")?.molarMass ?? Number.NaN);
  expect(Math.abs(molar - 0.015)).toBeLessThanOrEqual(0.001);
});

test.each(compounds)("$name: $formula against mf-parser as a reference library", (compound) => {
  const { mass } = new MF(compound.formula).getInfo() as { mass: number };
  expect(Math.abs(compound.molarMass - mass)).toBeLessThanOrEqual(0.05);
});

test("every row has its source, and no two share a name", () => {
  expect(compounds.every(({ source }) => source.includes("atomic weights"))).toBe(true);
  const [first] = compounds;
  const doubled = compoundsSchema.safeParse([first, { ...first, id: "another" }]);
  expect(doubled.error?.message).toContain("names both sodium-sulfite-anhydrous and another");
});

test.each([
  { broken: { molarMass: -1 } },
  { broken: { formula: "Na2CO3.10H2O" } },
  { broken: { activePerFormulaUnit: 0 } },
  { broken: { surprise: 1 } },
])("a row with $broken is refused", ({ broken }) => {
  expect(compoundsSchema.safeParse([{ ...compounds[0], ...broken }]).success).toBe(false);
});
