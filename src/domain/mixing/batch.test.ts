import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { volumeIn } from "../units/conversions.ts";
import { millilitres as ml } from "../units/quantity.ts";
import { type Amount, mass, sizeOf, volume } from "./amount.ts";
import { type BatchRecipe, explainBatch, explainBatchCaution, scaleBatch } from "./batch.ts";

const liquid = (name: string, amount?: number) =>
  amount === undefined
    ? ({ name, form: "liquid" } as const)
    : ({ name, form: "liquid", amount: volume(amount) } as const);
const powder = (name: string, amount?: Amount) => ({ name, form: "powder", amount }) as const;

const recipe = (
  total: number,
  startWater: number,
  ...parts: BatchRecipe["parts"]
): BatchRecipe => ({
  total: ml(total),
  startWater: ml(startWater),
  parts,
});

const made = (of: BatchRecipe, wanted: number, options?: Parameters<typeof scaleBatch>[2]) => {
  const batch = scaleBatch(of, ml(wanted), options);
  if (!batch.ok) throw new Error(explainBatch(batch.error));
  return batch.value;
};
const refused = (of: BatchRecipe, wanted: number, options?: Parameters<typeof scaleBatch>[2]) => {
  const batch = scaleBatch(of, ml(wanted), options);
  if (batch.ok) throw new Error("expected a refusal");
  return batch.error;
};

describe("TI2443, Single-Use Chemistry Kit, Process E-6, columns 1 L and 2 L (read)", () => {
  const columns = "TI2443, Single-Use Chemistry Kit, Process E-6, columns 1 L and 2 L (read)";
  test.each([
    { bath: "first developer", oneLitre: [200], twoLitres: [400], source: columns },
    { bath: "reversal bath", oneLitre: [25], twoLitres: [50], source: columns },
    { bath: "color developer", oneLitre: [142.5, 47], twoLitres: [285, 94], source: columns },
    { bath: "pre-bleach", oneLitre: [70], twoLitres: [140], source: columns },
    { bath: "bleach", oneLitre: [310], twoLitres: [620], source: columns },
    { bath: "fixer", oneLitre: [70], twoLitres: [140], source: columns },
    { bath: "final rinse", oneLitre: [10], twoLitres: [20], source: columns },
  ])("$bath: $oneLitre mL for 1 L is $twoLitres mL for 2 L", ({ oneLitre, twoLitres }) => {
    const batch = made(recipe(1000, 600, ...oneLitre.map((n, i) => liquid(`part ${i}`, n))), 2000);
    expect(batch.parts.map((part) => part.amount && sizeOf(part.amount))).toEqual(twoLitres);
    expect(batch.startWater).toBe(1200);
    expect(batch.startWater / batch.total).toBe(0.6);
  });

  test("bleach, 1 L: 90 mL of water tops it up (derived from the 1 L column)", () => {
    expect(made(recipe(1000, 600, liquid("bleach", 310)), 1000).topUp).toBe(90);
  });
});

test.each([
  { bath: "developer", start: 20 },
  { bath: "blix", start: 18 },
  { bath: "stabilizer", start: 30 },
])("a US quart of $bath starts from $start US fl oz: common practice, no source", ({ start }) => {
  const oz = (n: number) => volumeIn(n, "fl oz", "us");
  const quart = volumeIn(1, "quart", "us");
  const half = made(recipe(oz(32), oz(start), liquid("A", 20)), quart / 2);
  expect(half.startWater).toBeCloseTo(oz(start / 2), 9);
  expect(half.total).toBeCloseTo(oz(16), 9);
});

test.each([
  {
    what: "powder kit",
    total: 1000,
    start: 800,
    source: "personal weblog, May 2018 (common practice)",
  },
  {
    what: "accelerator AB-1b",
    total: 1000,
    start: 900,
    source: "Module 9, Process ECP-2E, p. 24 (read)",
  },
])("$what: $start of $total mL to start stays that share: $source", ({ total, start }) => {
  const batch = made(recipe(total, start, powder("salts", mass(50))), 3 * total);
  expect(batch.startWater).toBe(3 * start);
  expect(batch.topUp).toBe(3 * (total - start));
});

test("parts keep their order, name, form and kind of amount", () => {
  const batch = made(recipe(1000, 700, powder("A", mass(40)), liquid("B", 50)), 500, {
    insist: true,
  });
  expect(batch.parts).toEqual([
    { name: "A", form: "powder", amount: mass(20) },
    { name: "B", form: "liquid", amount: volume(25) },
  ]);
  expect(batch.scale).toBe(0.5);
  expect(batch.topUp).toBe(125);
});

test("a powder is not split unless insisted, and then it is said", () => {
  const kit = recipe(1000, 700, powder("A"), powder("B", mass(10)), liquid("C", 50));
  const error = refused(kit, 500);
  expect(error).toEqual({ kind: "powder-split", parts: ["A", "B"], wanted: 500, whole: 1000 });
  expect(explainBatch(error)).toMatch(/500 mL .*A, B.*separates in transport.*whole 1 L.*insist/);

  const weighed = recipe(1000, 700, powder("B", mass(10)));
  const insisted = made(weighed, 500, { insist: true });
  expect(insisted.parts[0]?.amount).toEqual(mass(5));
  expect(insisted.cautions.map((caution) => caution.kind)).toEqual([
    "powder-volume-ignored",
    "powder-split-anyway",
  ]);
  expect(insisted.cautions.map(explainBatchCaution).join(" ")).toMatch(
    /not counted.*against advice/,
  );
});

test.each([1000, 2000, 3000, 999.5, 1000.9, 1998.2])(
  "%d mL of a 1 L powder is whole packages",
  (wanted) => {
    const batch = made(recipe(1000, 700, powder("A")), wanted);
    expect(batch.cautions).toEqual([{ kind: "powder-volume-ignored", parts: ["A"] }]);
  },
);

test.each([400, 998.9, 1001.1, 1500])("%d mL of a 1 L powder is not", (wanted) => {
  expect(refused(recipe(1000, 700, powder("A")), wanted).kind).toBe("powder-split");
});

test("a whole part of unknown amount makes only whole batches", () => {
  const kit = recipe(1000, 700, liquid("A"), liquid("B", 50));
  const whole = made(kit, 2000);
  expect(whole.parts[0]).toEqual({ name: "A", form: "liquid" });
  expect(whole.topUp).toBeUndefined();
  expect(whole.cautions).toEqual([{ kind: "liquid-volume-unknown", parts: ["A"] }]);
  expect(whole.cautions.map(explainBatchCaution)[0]).toContain("volume of A: fill to the mark");

  const error = refused(kit, 600);
  expect(error).toEqual({ kind: "amount-unknown", parts: ["A"], wanted: 600, whole: 1000 });
  expect(explainBatch(error)).toMatch(/600 mL .*share of A.*give its amount.*whole 1 L/);
  expect(refused(recipe(1000, 700, powder("A")), 600, { insist: true }).kind).toBe(
    "amount-unknown",
  );
});

test("a liquid that is weighed leaves the top-up open", () => {
  const batch = made(recipe(1000, 700, { name: "A", form: "liquid", amount: mass(100) }), 1000);
  expect(batch.topUp).toBeUndefined();
});

test("start water and parts above the mark are refused by how much", () => {
  const error = refused(recipe(1000, 800, liquid("A", 150), liquid("B", 100)), 2000);
  expect(error).toEqual({
    kind: "overfull",
    total: 2000,
    startWater: 1600,
    liquids: 500,
    by: 100,
  });
  expect(explainBatch(error)).toMatch(/100 mL more than the 2 L mark: start with 1.5 L of water/);
  const hopeless = refused(recipe(1000, 100, liquid("A", 1200)), 1000);
  expect(explainBatch(hopeless)).toMatch(/300 mL more .*parts alone do not fit/);
  expect(scaleBatch(recipe(1000, 690, liquid("A", 310)), ml(1000)).ok).toBe(true);
});

test.each([
  { wanted: 0, kind: "nothing-to-mix", says: "I read 0 mL" },
  { wanted: -250, kind: "nothing-to-mix", says: "I read -250 mL" },
  { wanted: 10_000_000, kind: "too-large", says: "I read 10000 L, and I go up to 200 L" },
])("$wanted mL is refused as $kind", ({ wanted, kind, says }) => {
  const error = refused(recipe(1000, 600, liquid("A", 100)), wanted);
  expect(error.kind).toBe(kind);
  expect(explainBatch(error)).toContain(says);
});

test("the largest batch is a parameter", () => {
  const bath = recipe(1000, 600, liquid("A", 100));
  expect(refused(bath, 5001, { most: ml(5000) }).kind).toBe("too-large");
  expect(made(bath, 5000, { most: ml(5000) }).total).toBe(5000);
});

const recipes = fc
  .record({
    total: fc.double({ min: 100, max: 20_000, noNaN: true }),
    share: fc.double({ min: 0, max: 0.6, noNaN: true }),
    parts: fc.array(fc.double({ min: 0.001, max: 0.1, noNaN: true }), {
      minLength: 1,
      maxLength: 4,
    }),
  })
  .map(({ total, share, parts }) =>
    recipe(total, total * share, ...parts.map((part, i) => liquid(`part ${i}`, part * total))),
  );
const volumes = fc.double({ min: 1, max: 100_000, noNaN: true });

test("start water, liquid parts and top-up always add up to the volume", () => {
  const adds = fc.property(recipes, volumes, (bath, wanted) => {
    const batch = made(bath, wanted);
    const poured = batch.parts.reduce((sum, { amount }) => sum + (amount ? sizeOf(amount) : 0), 0);
    expect((batch.startWater + poured + (batch.topUp ?? Number.NaN)) / wanted).toBeCloseTo(1, 9);
  });
  fc.assert(adds);
});

test("twice the volume takes twice of everything", () => {
  const linear = fc.property(recipes, volumes, (bath, wanted) => {
    const once = made(bath, wanted);
    const twice = made(bath, 2 * wanted);
    expect(twice.startWater / 2).toBeCloseTo(once.startWater, 6);
    expect((twice.topUp ?? 0) / 2).toBeCloseTo(once.topUp ?? 0, 6);
    for (const [i, { amount }] of twice.parts.entries()) {
      const before = once.parts[i]?.amount;
      expect(amount && sizeOf(amount) / 2).toBeCloseTo(before ? sizeOf(before) : Number.NaN, 6);
    }
  });
  fc.assert(linear);
});

test.each([0, 1e-300, -1])(
  "a batch that comes to %d mL is no recipe, and that is said",
  (total) => {
    const none = { total: ml(total), startWater: ml(0), parts: [] };
    const batch = scaleBatch(none, ml(1000));
    expect(batch.ok ? "" : explainBatch(batch.error)).toContain("correct its total");
  },
);
