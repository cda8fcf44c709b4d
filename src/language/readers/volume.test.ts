import fc from "fast-check";
import { expect, test } from "vitest";
import { choicesOf, readAll, readWhole } from "../../../test/support/reading.ts";
import { spell } from "../../../test/support/spell.ts";
import { millilitres } from "../../domain/units/quantity.ts";
import { showFluidOunces, showVolume } from "../../domain/units/show.ts";
import { readVolume } from "./volume.ts";

/** NIST Handbook 44, appendix C: US quart and fluid ounce; the Imperial gallon is 4546.09 mL. */
const US_QUART = 946.352946;
const US_OUNCE = 29.5735295625;
const IMPERIAL_OUNCE = 28.4130625;

test.each([
  ["500 ml", 500],
  ["500ml", 500],
  ["500 mils", 500],
  ["six hundred and fifty mil", 650],
  ["six fifty mil", 650],
  ["20 cc", 20],
  ["2 l", 2000],
  ["a litre", 1000],
  ["1.5 liters", 1500],
  ["half a litre", 500],
  ["half-litre", 500],
  ["a litre and a half", 1500],
  ["a litre and 200 ml", 1200],
  ["three quarters of a liter", 750],
  ["2 x 500 ml", 1000],
  ["2x500ml", 1000],
  ["-5 ml", -5],
  ["0 ml", 0],
  ["10,000 L", 10_000_000],
  ["1 us quart", US_QUART],
  ["an american quart", US_QUART],
  ["1 U.S. quart", US_QUART],
  ["1 quart us", US_QUART],
  ["a us quart and a half", US_QUART * 1.5],
  ["1 us quart 8 us ounces", US_QUART + 8 * US_OUNCE],
  ["20 us fl oz", 20 * US_OUNCE],
  ["8 imperial fluid ounces", 8 * IMPERIAL_OUNCE],
  ["8 fluid ounces uk", 8 * IMPERIAL_OUNCE],
  ["1 imperial pint", 20 * IMPERIAL_OUNCE],
  ["2 us cups", 16 * US_OUNCE],
  ["1 us gallon", 4 * US_QUART],
  ["4 us drams", US_OUNCE / 2],
  ["60 us minims", US_OUNCE / 8],
  ["us quart", US_QUART],
])("%j is %d mL", (phrase, value) => {
  expect(readWhole(readVolume, phrase)).toBeCloseTo(value, 6);
});

test.each([
  ["quart", US_QUART],
  ["a quart and a half", 1.5 * US_QUART],
  ["one and a half quarts", 1.5 * US_QUART],
  ["1 quart 8 ounces", US_QUART + 8 * US_OUNCE],
  ["1 quart and 8 oz", US_QUART + 8 * US_OUNCE],
  ["32 fl. oz.", US_QUART],
])("%j on a US bench is %d mL, elsewhere the country is asked", (phrase, value) => {
  expect(readWhole(readVolume, phrase, { country: "us" })).toBeCloseTo(value, 6);
  expect(readWhole(readVolume, phrase)).toMatchObject({ unsettled: "country" });
  expect(readWhole(readVolume, phrase, { country: "imperial" })).not.toBeCloseTo(value, 0);
});

test("the question about the country carries both answers", () => {
  expect(choicesOf(readWhole(readVolume, "a quart"))).toEqual({
    us: 946.352946,
    imperial: 1136.5225,
  });
});

test("a bare number never guesses its unit", () => {
  expect(choicesOf(readWhole(readVolume, "32"))).toEqual({
    millilitres: 32,
    litres: 32_000,
    "us ounces": expect.closeTo(US_QUART, 6),
    "imperial ounces": expect.closeTo(32 * IMPERIAL_OUNCE, 6),
  });
  expect(choicesOf(readWhole(readVolume, "32", { country: "us" }))).toEqual({
    millilitres: 32,
    litres: 32_000,
    ounces: expect.closeTo(US_QUART, 6),
  });
});

test.each(["1e309 ml", "1e308 l", "1e308", "nan ml", "2 x 1e308 gallons"])(
  "%j is a volume nobody can use",
  (phrase) => {
    expect(readWhole(readVolume, phrase)).toHaveProperty("unreadable");
  },
);

test.each(["ml", "a", "half", "500 g", "ounces", "of"])("%j is no volume", (phrase) => {
  expect(readWhole(readVolume, phrase)).toBe("nothing");
});

test("shorter readings are kept: the ounces may belong to something else", () => {
  const taken = readAll(readVolume, "1 litre 200 ml").map(([, next]) => next);
  expect(taken).toEqual([4, 2]);
});

test("what is shown reads back to what a graduate can measure", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 50_000, noNaN: true }), (amount) => {
      const shown = showVolume(millilitres(amount));
      const back = readWhole(readVolume, shown);
      expect(back).toBeTypeOf("number");
      expect(showVolume(millilitres(back as number))).toBe(shown);
      for (const country of ["us", "imperial"] as const) {
        const ounces = readWhole(readVolume, showFluidOunces(millilitres(amount), country));
        expect(Math.abs((ounces as number) - amount)).toBeLessThan(1.5);
      }
    }),
  );
});

test("digits and words say the same", () => {
  fc.assert(
    fc.property(fc.nat(99_999), (value) => {
      expect(readWhole(readVolume, `${spell(value)} millilitres`)).toBe(value);
    }),
  );
});
