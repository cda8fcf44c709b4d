import fc from "fast-check";
import { expect, test } from "vitest";
import { readAll, readWhole } from "../../../test/support/reading.ts";
import { spell } from "../../../test/support/spell.ts";
import { readNumber } from "./number.ts";

test.each([
  ["650", 650],
  ["1,000", 1000],
  ["12,345.5", 12345.5],
  ["1.000,5", 1000.5],
  ["37.8", 37.8],
  ["37,8", 37.8],
  ["0,125", 0.125],
  [".5", 0.5],
  ["-5", -5],
  ["−5", -5],
  ["minus five", -5],
  ["negative two and a half", -2.5],
  ["-2 1/2", -2.5],
  ["1e3", 1000],
  ["1/2", 0.5],
  ["½", 0.5],
  ["2½", 2.5],
  ["2 1/2", 2.5],
  ["two and a half", 2.5],
  ["two and three quarters", 2.75],
  ["one and a half", 1.5],
  ["half", 0.5],
  ["a half", 0.5],
  ["half a", 0.5],
  ["half of a", 0.5],
  ["quarter", 0.25],
  ["three quarters", 0.75],
  ["two thirds", 2 / 3],
  ["a", 1],
  ["an", 1],
  ["a hundred", 100],
  ["a hundred and one", 101],
  ["one hundred five", 105],
  ["six hundred and fifty", 650],
  ["two thousand five hundred", 2500],
  ["two thousand and five", 2005],
  ["a thousand", 1000],
  ["2 thousand", 2000],
  ["1.5 thousand", 1500],
  ["thirty seven point five", 37.5],
  ["thirty-seven point eight", 37.8],
  ["zero point oh five", 0.05],
  ["one point two five", 1.25],
  ["one point seventy five", 1.75],
  ["point five", 0.5],
  ["37 point 5", 37.5],
  ["a couple", 2],
  ["a couple of", 2],
  ["a dozen", 12],
  ["two dozen", 24],
  ["half a dozen", 6],
])("%j is %d", (phrase, value) => {
  expect(readWhole(readNumber, phrase)).toBe(value);
});

test.each(["1e309", "-1e309", "minus 1e309", "1/0", "nan", "infinity", "9".repeat(400)])(
  "%j is a number nobody can use",
  (phrase) => {
    expect(readWhole(readNumber, phrase)).toHaveProperty("unreadable");
  },
);

test.each(["to", "for", "constructor", "hundred", "and", "point", "1.2.3", "c-41", "12/11/26", ""])(
  "%j is no number",
  (phrase) => {
    expect(readWhole(readNumber, phrase)).toBe("nothing");
  },
);

test("shorter readings follow the longest", () => {
  expect(readAll(readNumber, "two and a half")).toEqual([
    [2.5, 4],
    [2, 1],
  ]);
});

test("a number in words is the number in digits", () => {
  fc.assert(
    fc.property(fc.nat(999_999), (value) => {
      expect(readWhole(readNumber, spell(value))).toBe(value);
      expect(readWhole(readNumber, String(value))).toBe(value);
      expect(readWhole(readNumber, value.toLocaleString("en-GB"))).toBe(value);
    }),
  );
});

test("decimals in words are the decimals in digits", () => {
  fc.assert(
    fc.property(fc.nat(999), fc.stringMatching(/^\d{1,6}$/), (whole, digits) => {
      const spoken = [...digits].map((digit) => spell(Number(digit))).join(" ");
      const value = Number(`${whole}.${digits}`);
      expect(readWhole(readNumber, `${spell(whole)} point ${spoken}`)).toBeCloseTo(value, 9);
      expect(readWhole(readNumber, `${whole}.${digits}`)).toBe(value);
    }),
  );
});
