import fc from "fast-check";
import { expect, test } from "vitest";
import { millilitres as ml } from "../units/quantity.ts";
import { mass, volume } from "./amount.ts";
import { type BatchRecipe, scaleBatch } from "./batch.ts";
import { explainLargestBatch, largestBatch, type PartLeft } from "./largest-batch.ts";

/** Amounts: TI2443, Single-Use Chemistry Kit, Process E-6, column 1 L (read). */
const colorDeveloper: BatchRecipe = {
  total: ml(1000),
  startWater: ml(600),
  parts: [
    { name: "Part A", form: "liquid", amount: volume(142.5) },
    { name: "Part B", form: "liquid", amount: volume(47) },
  ],
};
const withPowder: BatchRecipe = {
  total: ml(500),
  startWater: ml(300),
  parts: [
    { name: "salts", form: "powder", amount: mass(40) },
    { name: "whole", form: "liquid" },
  ],
};

const largest = (recipe: BatchRecipe, left: readonly PartLeft[]) => {
  const found = largestBatch(recipe, left);
  if (!found.ok) throw new Error(explainLargestBatch(found.error));
  return found.value;
};

test("the part that runs out first sets the volume", () => {
  const left = [
    { part: "part a ", amount: volume(285) },
    { part: "Part B", amount: volume(70.5) },
  ];
  for (const order of [left, left.toReversed()]) {
    expect(largest(colorDeveloper, order)).toEqual({
      total: 1500,
      limitedBy: "Part B",
      scale: 1.5,
      wholeTotal: 1000,
      splits: [],
    });
  }
});

test("one part alone is enough to ask, the others are taken as plenty", () => {
  const found = largest(colorDeveloper, [{ part: "Part A", amount: volume(285) }]);
  expect(found.total).toBe(2000);
  expect(found.limitedBy).toBe("Part A");
});

test("a powder is named when the volume would split it, with the whole batches beside", () => {
  const found = largest(withPowder, [{ part: "salts", amount: mass(100) }]);
  expect(found).toMatchObject({ total: 1250, wholeTotal: 1000, splits: ["salts"] });
  const whole = largest(withPowder, [{ part: "salts", amount: mass(120) }]);
  expect(whole).toMatchObject({ total: 1500, wholeTotal: 1500, splits: [] });
});

test.each([
  { left: [], says: "one part: salts, whole" },
  { left: [{ part: "Q".repeat(100), amount: mass(1) }], says: `"${"Q".repeat(40)}" and` },
  { left: [{ part: "whole", amount: volume(5) }], says: "how much whole a batch takes" },
  { left: [{ part: "salts", amount: volume(5) }], says: "give its weight" },
  { left: [{ part: "salts", amount: mass(0) }], says: "I read 0 g of salts" },
  { left: [{ part: "salts", amount: mass(-3) }], says: "I read -3 g of salts" },
])("refused: $says", ({ left, says }) => {
  const found = largestBatch(withPowder, left);
  expect(found.ok ? "" : explainLargestBatch(found.error)).toContain(says);
});

test("mixing the largest batch uses up exactly what is left of its part", () => {
  const back = fc.property(fc.double({ min: 0.1, max: 5000, noNaN: true }), (left) => {
    const { total } = largest(colorDeveloper, [{ part: "Part B", amount: volume(left) }]);
    const batch = scaleBatch(colorDeveloper, total);
    const used = batch.ok ? batch.value.parts[1]?.amount : undefined;
    expect(used?.kind === "volume" ? used.ml / left : Number.NaN).toBeCloseTo(1, 9);
  });
  fc.assert(back);
});
