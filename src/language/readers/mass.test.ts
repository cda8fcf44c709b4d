import fc from "fast-check";
import { expect, test } from "vitest";
import { choicesOf, readWhole } from "../../../test/support/reading.ts";
import { grams } from "../../domain/units/quantity.ts";
import { showMass } from "../../domain/units/show.ts";
import { readMass } from "./mass.ts";

/** A pound is 453.59237 g, 16 oz, 7000 grains (NIST Handbook 44, appendix C). */
test.each([
  ["12.5 g", 12.5],
  ["12.5g", 12.5],
  ["two and a half grams", 2.5],
  ["1 kg", 1000],
  ["a kilo and a half", 1500],
  ["250 mg", 0.25],
  ["half an ounce", 14.1747615625],
  ["4 oz", 113.3980925],
  ["1 lb 4 oz", 566.9904625],
  ["a pound", 453.59237],
  ["30 grains", 1.9439673],
  ["-3 g", -3],
])("%j is %d g", (phrase, value) => {
  expect(readWhole(readMass, phrase)).toBeCloseTo(value, 6);
});

test("a bare number asks for its unit", () => {
  expect(choicesOf(readWhole(readMass, "4"))).toEqual({
    grams: 4,
    ounces: expect.closeTo(113.39809, 5),
    grains: expect.closeTo(0.2591956, 5),
  });
});

test.each(["1e309 g", "1e308 kg", "infinity grams"])("%j is a mass nobody can use", (phrase) => {
  expect(readWhole(readMass, phrase)).toHaveProperty("unreadable");
});

test.each(["g", "500 ml", "grams of"])("%j is no mass", (phrase) => {
  expect(readWhole(readMass, phrase)).toBe("nothing");
});

test("what is shown reads back to what a scale shows", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (amount) => {
      const shown = showMass(grams(amount));
      expect(showMass(grams(readWhole(readMass, shown) as number))).toBe(shown);
    }),
  );
});
