import fc from "fast-check";
import { expect, test } from "vitest";
import { compounds } from "../../data/compounds.ts";
import { grams } from "../units/quantity.ts";
import { explainFindCompound, findCompound } from "./find-compound.ts";
import { explainSwap, saySwap, swap } from "./swap.ts";

const known = (name: string) => {
  const found = findCompound(compounds, name);
  if (!found.ok) throw new Error(explainFindCompound(found.error));
  return found.value;
};
const swapped = (printed: string, inJar: string, g = 1) => {
  const done = swap(known(printed), known(inJar), grams(g));
  if (!done.ok) throw new Error(explainSwap(done.error));
  return done.value;
};

const LANG = "Langford's Basic Photography, Appendix D (read)";
const CB329 = "The Darkroom Cookbook, 3rd ed., p. 329 (read)";
const CB330 = "The Darkroom Cookbook, 3rd ed., p. 330 (read)";

test.each([
  { says: "Na2CO3", have: "Na2CO3(H2O)", exact: 1.17, printed: 1.2, source: LANG },
  { says: "Na2CO3", have: "Na2CO3(H2O)10", exact: 2.6997, printed: 2.7, source: LANG },
  { says: "Na2S2O3(H2O)5", have: "Na2S2O3", exact: 0.637, printed: 0.64, source: CB330 },
  { says: "Na2SO3", have: "Na2SO3(H2O)7", exact: 2.0005, printed: 2, source: LANG },
  { says: "Na2B4O7(H2O)10", have: "Na2B4O7(H2O)5", exact: 0.7638, printed: 0.76, source: CB329 },
  { says: "KBr", have: "NaBr", exact: 0.8646, printed: 0.86, source: CB330 },
  {
    says: "KOH",
    have: "NaOH",
    exact: 0.7129,
    printed: 0.72,
    source: `${CB329}, printed in the other row`,
  },
  {
    says: "NaOH",
    have: "KOH",
    exact: 1.4027,
    printed: 1.4,
    source: `${CB329}, printed in the other row`,
  },
])("formula says $says, you have $have: $exact, printed $printed: $source", (row) => {
  const { factor } = swapped(row.says, row.have);
  expect(Math.abs(factor - row.exact)).toBeLessThanOrEqual(0.0005);
  expect(Math.abs(factor - row.printed)).toBeLessThanOrEqual(0.031);
});

test("240 g of crystalline thiosulfate is 152.9 g anhydrous, where the printed rule of 64 % gives 153.6: The Darkroom Cookbook, 3rd ed., p. 268 (read)", () => {
  const { mass } = swapped("hypo", "anhydrous hypo", 240);
  expect(Math.abs(mass - 152.9)).toBeLessThanOrEqual(0.1);
});

test("a salt that brings two active ions counts for two", () => {
  expect(swapped("hydroxylamine hydrochloride", "hydroxylamine sulfate").factor).toBeCloseTo(
    164.132 / 2 / 69.488,
    9,
  );
  expect(swapped("sodium metabisulfite", "sodium bisulfite").factor).toBeCloseTo(
    (2 * 104.055) / 190.095,
    9,
  );
});

test("the direction is in the words", () => {
  const done = swapped("soda ash", "washing soda", 50);
  expect(saySwap(done)).toBe(
    "The formula says sodium carbonate, anhydrous, you have sodium carbonate, decahydrate: take 2.7 ×, 135 g for 50 g.",
  );
});

test("carbonate to metaborate is refused: 1.70 is printed and the molar figure is 2.22: The Darkroom Cookbook, 3rd ed., p. 329 (read)", () => {
  const from = known("sodium carbonate, monohydrate");
  const to = known("sodium metaborate, tetrahydrate");
  expect((2 * to.molarMass) / from.molarMass).toBeCloseTo(2.22, 2);
  const done = swap(from, to, grams(10));
  expect(!done.ok && done.error.kind).toBe("different-family");
  expect(done.ok ? "" : explainSwap(done.error)).toMatch(
    /works by its carbonate and .* by its metaborate.*published trial/,
  );
});

test.each([
  { g: 0, says: "I read 0 g" },
  { g: -2, says: "I read -2 g" },
  { g: 1e9, says: "I go up to" },
])("$g g is refused", ({ g, says }) => {
  const done = swap(known("KBr"), known("NaBr"), grams(g));
  expect(done.ok ? "" : explainSwap(done.error)).toContain(says);
});

test("there and back is where you were, for every two of a family", () => {
  const pairs = compounds.flatMap((one) =>
    compounds.filter((other) => other.family === one.family).map((other) => ({ one, other })),
  );
  const back = fc.property(
    fc.constantFrom(...pairs),
    fc.double({ min: 0.01, max: 1000, noNaN: true }),
    ({ one, other }, g) => {
      const there = swap(one, other, grams(g));
      const again = there.ok ? swap(other, one, there.value.mass) : there;
      expect(again.ok && again.value.mass / g).toBeCloseTo(1, 9);
    },
  );
  fc.assert(back);
});

test("across families there is never an answer", () => {
  const across = compounds.flatMap((one) =>
    compounds.filter((other) => other.family !== one.family).map((other) => ({ one, other })),
  );
  expect(across.filter(({ one, other }) => swap(one, other, grams(1)).ok)).toEqual([]);
});

test.each([
  { said: "Sodium Carbonate Monohydrate", id: "sodium-carbonate-monohydrate" },
  { said: "washing soda", id: "sodium-carbonate-decahydrate" },
  { said: "potassium-bromide", id: "potassium-bromide" },
  { said: "cd-4", id: "cd-4-sulfate" },
  { said: "sodium metaborate", id: "sodium-metaborate-tetrahydrate" },
])("$said is $id", ({ said, id }) => {
  expect(known(said).id).toBe(id);
});

test("a name without its water is asked about, an unknown one is said back", () => {
  const which = findCompound(compounds, "sodium carbonate");
  expect(which.ok ? "" : explainFindCompound(which.error)).toBe(
    "Which one: sodium carbonate, anhydrous; sodium carbonate, monohydrate; sodium carbonate, decahydrate?",
  );
  const none = findCompound(compounds, `unobtainium${"x".repeat(100)}`);
  expect(none.ok ? "" : explainFindCompound(none.error)).toMatch(
    /^I do not know "unobtainiumx{29}"/,
  );
});
