import { expect, test } from "vitest";
import { choicesOf, readWhole } from "../../../test/support/reading.ts";
import { readAmount } from "./amount.ts";

test.each([
  ["50 ml", { ml: 50 }],
  ["a litre", { ml: 1000 }],
  ["12.5 g", { g: 12.5 }],
  ["1 kg", { g: 1000 }],
  ["1 us fl oz", { ml: expect.closeTo(29.5735, 4) }],
  ["4 ounces by weight", { g: expect.closeTo(113.39809, 5) }],
  ["1 lb 4 oz", { g: expect.closeTo(566.99046, 5) }],
])("%j is %j", (phrase, value) => {
  expect(readWhole(readAmount, phrase)).toEqual(value);
});

test("plain ounces may be poured or weighed", () => {
  expect(choicesOf(readWhole(readAmount, "4 ounces", { country: "us" }))).toEqual({
    "by weight": { g: expect.closeTo(113.39809, 5) },
    fluid: { ml: expect.closeTo(118.294, 3) },
  });
  expect(choicesOf(readWhole(readAmount, "4 oz"))).toEqual({
    "by weight": { g: expect.closeTo(113.39809, 5) },
    "us fluid": { ml: expect.closeTo(118.294, 3) },
    "imperial fluid": { ml: expect.closeTo(113.652, 3) },
  });
});

test("fluid ounces of an unknown country ask for it", () => {
  expect(choicesOf(readWhole(readAmount, "1 fluid ounce"))).toEqual({
    us: { ml: expect.closeTo(29.5735, 4) },
    imperial: { ml: expect.closeTo(28.4131, 4) },
  });
});

test("a bare number asks for grams or millilitres", () => {
  expect(choicesOf(readWhole(readAmount, "50"))).toEqual({
    grams: { g: 50 },
    millilitres: { ml: 50 },
  });
});

test.each(["1e309 ml", "1e309 g", "1e309 oz", "1e309"])("%j is refused", (phrase) => {
  expect(readWhole(readAmount, phrase)).toHaveProperty("unreadable");
});
