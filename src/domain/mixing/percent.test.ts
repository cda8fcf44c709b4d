import fc from "fast-check";
import { expect, test } from "vitest";
import { massTo, volumeIn } from "../units/conversions.ts";
import { grams, millilitres as ml } from "../units/quantity.ts";
import { gramsPerMillilitre, massOf, volumeOf } from "./density.ts";
import {
  explainPercent,
  measureOf,
  type Percent,
  type PercentKind,
  percent,
  soluteFor,
  stockHolding,
} from "./percent.ts";

const wv = (value: number): Percent<"w/v"> => ({ kind: "w/v", value });

test("3.2 g of agent is 16 mL of a 20 % stock: British Journal of Photography formulae, stock solution (read-secondary)", () => {
  expect(stockHolding(grams(3.2), wv(20))).toEqual({ ok: true, value: ml(16) });
});

test("that stock holds 20 g made up to 100 mL: British Journal of Photography formulae (read-secondary)", () => {
  expect(soluteFor(wv(20), ml(100))).toEqual({ ok: true, value: grams(20) });
});

test("10 % w/v in a US fl oz is 45.64 grains, not the 48 of the apothecaries ounce: The Wellington Photographic Handbook, p. 134 (read), and arithmetic (derived)", () => {
  const solute = soluteFor(wv(10), volumeIn(1, "fl oz", "us"));
  expect(solute.ok && massTo(solute.value, "grain")).toBeCloseTo(45.64, 2);
});

test("4.5 g/L is 0.45 % w/v: online encyclopaedia article on CD-4, overview (read-secondary)", () => {
  const solute = soluteFor(wv(0.45), ml(1000));
  expect(solute.ok && solute.value).toBeCloseTo(4.5, 9);
});

test.each<{ value: number; kind: PercentKind; fine: boolean }>([
  { value: 0, kind: "v/v", fine: true },
  { value: 100, kind: "v/v", fine: true },
  { value: 100.1, kind: "v/v", fine: false },
  { value: 100.1, kind: "w/w", fine: false },
  { value: 150, kind: "w/v", fine: true },
  { value: 201, kind: "w/v", fine: false },
  { value: -1, kind: "w/w", fine: false },
  { value: Number.NaN, kind: "w/v", fine: false },
])("$value % $kind can be meant: $fine", ({ value, kind, fine }) => {
  const strength = percent(value, kind);
  expect(strength.ok).toBe(fine);
  if (strength.ok) expect(strength.value).toEqual({ kind, value });
  else expect(explainPercent(strength.error)).toContain(`% ${kind}: give a strength from 0 to`);
});

test.each([
  { given: soluteFor(wv(10), ml(0)), says: "I read 0 mL" },
  { given: soluteFor(wv(10), ml(-5)), says: "I read -5 mL" },
  { given: soluteFor(wv(10), ml(1e9)), says: "I go up to 200 L" },
  { given: soluteFor(wv(0), ml(100)), says: "plain water" },
  { given: stockHolding(grams(0), wv(10)), says: "I read 0 g" },
  { given: stockHolding(grams(5), wv(0)), says: "plain water" },
  { given: stockHolding(grams(5000), wv(0.001)), says: "I go up to 200 L" },
])("refused: $says", ({ given, says }) => {
  expect(given.ok ? "" : explainPercent(given.error)).toContain(says);
});

test("solute for a volume of stock and back", () => {
  const back = fc.property(
    fc.double({ min: 0.1, max: 100, noNaN: true }),
    fc.double({ min: 1, max: 10_000, noNaN: true }),
    (strength, total) => {
      const solute = soluteFor(wv(strength), ml(total));
      const stock = solute.ok ? stockHolding(solute.value, wv(strength)) : solute;
      expect(stock.ok && stock.value).toBeCloseTo(total, 6);
    },
  );
  fc.assert(back);
});

test("grams become mL only through a density", () => {
  const glacial = gramsPerMillilitre(1.05);
  expect(volumeOf(grams(105), glacial)).toBeCloseTo(100, 9);
  expect(massOf(ml(100), glacial)).toBeCloseTo(105, 9);
  expect(() => gramsPerMillilitre(0)).toThrow(RangeError);
  expect(measureOf("w/w")).toBe("mass");
  expect(measureOf("w/v")).toBe("volume");
});
