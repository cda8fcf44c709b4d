import { expect, test } from "vitest";
import { explainFormula, scaleFormula } from "../domain/mixing/scale-formula.ts";
import { millilitres } from "../domain/units/quantity.ts";
import { compounds } from "./compounds.ts";
import { formulas, formulasSchema } from "./formulas.ts";

const of = (name: string) => {
  const found = formulas.find((formula) => formula.name === name);
  if (found === undefined) throw new Error(`no formula ${name}`);
  return found;
};

const J1 = "J-1, Processing Chemicals and Formulas for Black-and-White Photography (from memory)";
test.each([
  {
    name: "D-76",
    amounts: ["metol 2 g", "sodium sulfite 100 g", "hydroquinone 5 g", "borax 2 g"],
    start: 750,
    evidence: "read",
    source: "What is the composition of D76, ingredient table (read); start water from memory",
  },
  {
    name: "SB-5",
    amounts: ["acetic acid 32 mL", "sodium sulfate 45 g"],
    start: 500,
    evidence: "read",
    source:
      "The Darkroom Cookbook, 3rd ed., p. 268, Formula 121, its mL of sulfate corrected (read)",
  },
  {
    name: "SB-8",
    amounts: ["citric acid 15 g"],
    start: 750,
    evidence: "read",
    source: "The Darkroom Cookbook, 3rd ed., p. 268, Formula 122 (read)",
  },
  {
    name: "SB-1",
    amounts: ["acetic acid 48 mL"],
    start: undefined,
    evidence: "from memory",
    source: J1,
  },
  {
    name: "F-5",
    amounts: [
      "sodium thiosulfate 240 g",
      "sodium sulfite 15 g",
      "acetic acid 48 mL",
      "boric acid 7.5 g",
      "potassium alum 15 g",
    ],
    start: 600,
    evidence: "from memory",
    source: J1,
  },
])("$name per litre: $source", ({ name, amounts, start, evidence }) => {
  const formula = of(name);
  const written = formula.ingredients.map(({ name: what, amount }) => {
    const [bare] = what.split(",");
    return amount.kind === "mass" ? `${bare} ${amount.g} g` : `${bare} ${amount.ml} mL`;
  });
  expect(written).toEqual(amounts);
  expect(formula.total).toBe(1000);
  expect(formula.startWater).toBe(start);
  expect(formula.evidence).toBe(evidence);
  expect(formula.origin.kind).toBe(evidence === "read" ? "published" : "from memory");
});

test("start water from memory says so even beside amounts that were read", () => {
  expect(of("D-76").startOrigin?.kind).toBe("from memory");
  expect(of("SB-5").startOrigin?.kind).toBe("published");
  expect(of("F-5").startTemperature).toBe(50);
  expect(of("SB-1").startOrigin).toBeUndefined();
});

test("every compound named is in the table, and every formula scales", () => {
  for (const formula of formulas) {
    for (const { compound } of formula.ingredients) {
      if (compound !== undefined) expect(compounds.map(({ id }) => id)).toContain(compound);
    }
    const half = scaleFormula(formula, millilitres(500));
    if (!half.ok) throw new Error(explainFormula(half.error));
    expect(half.value.ingredients[0]?.compound).toBe(formula.ingredients[0]?.compound);
  }
});

const row = {
  id: "x",
  name: "X",
  bath: "stop",
  aliases: [],
  total_ml: 1000,
  ingredients: [{ name: "acid", ml: 5 }],
  evidence: "read-secondary",
  source: "somewhere",
  notes: [],
};
test.each([
  { evidence: "read-secondary", kind: "published" },
  { evidence: "derived", kind: "computed" },
  { evidence: "common practice", kind: "common practice" },
])("evidence $evidence becomes origin $kind", ({ evidence, kind }) => {
  const [parsed] = formulasSchema.parse([{ ...row, evidence }]);
  expect(parsed?.origin.kind).toBe(kind);
  expect(parsed?.origin.source).toContain("somewhere");
});

test.each([
  { ingredients: [{ name: "acid" }] },
  { ingredients: [{ name: "acid", g: 1, ml: 1 }] },
  { ingredients: [] },
  { total_ml: 0 },
  { evidence: "heard" },
])("a row with %j is refused", (broken) => {
  expect(formulasSchema.safeParse([{ ...row, ...broken }]).success).toBe(false);
});
