import fc from "fast-check";
import { expect, test } from "vitest";
import { asTyped, toWords } from "./words.ts";

test.each([
  ["What's Dora's dev at 38c?", "what is dora developer at 38 c"],
  ["I'm sure it’s fine, don't stop!", "i am sure it is fine do not stop"],
  ["100°F, 38 °C and 100 ℉", "100 °f 38 °c and 100 °f"],
  ["500ml (2½ l)", "500 ml 2 1/2 l"],
  ["-5 −5 .5 1,000 37.8 37,8 3:15 1/2 1+9 1:4", "-5 -5 .5 1,000 37.8 37,8 3:15 1/2 1+9 1:4"],
  ["1 : 9 and 1 + 9", "1:9 and 1 + 9"],
  ["3m15s, 1h30, 90s, 15min", "3 m 15 s 1 h 30 90 s 15 min"],
  ["4×5 135–36 C-41 E-6 ECN-2 D-76", "4x5 135-36 c-41 e-6 ecn-2 d-76"],
  ["2026-11-28T12:30 on 2026-11-28", "2026-11-28t12:30 on 2026-11-28"],
  ["28% w/v", "28 % w/v"],
  ["U.S. quart at 7:45p.m.", "us quart at 7:45 pm"],
  ["thirty-seven-point-five", "thirty seven point five"],
  [
    "two-and-a-half half-litre 24-exposure pre-soak",
    "two and a half half litre 24 exposure pre-soak",
  ],
  ["2x500ml of color stabiliser", "2 x 500 ml of colour stabilizer"],
  ["fixer—then wash...next,please", "fixer then wash next please"],
  ['**bold** `code` <b> #3 "quoted" it\'s', "bold code b 3 quoted it is"],
  ["1e309 ml 1e309ml", "1e309 ml 1e309 ml"],
  ["\u0000a\u200bb\u202e \ud800 c\u0007d", "ab c d"],
  ["５００ｍｌ", "500 ml"],
  ["", ""],
  [" - -- ... ,", ""],
])("%j is %j", (sentence, expected) => {
  expect(toWords(sentence).words.join(" ")).toBe(expected);
});

test("free text comes back as typed", () => {
  const heard = toWords("note Don't pour Dora's 500ml out - it's GOOD, really.");
  expect(asTyped(heard, 1, heard.words.length)).toBe(
    "Don't pour Dora's 500ml out - it's GOOD, really",
  );
  expect(asTyped(heard, 99, 100)).toBe("");
});

test("any text gives as many originals as words, none empty, none with a blank or a control", () => {
  const anyText = fc.string({ unit: "binary", maxLength: 300 });
  fc.assert(
    fc.property(anyText, (sentence) => {
      const heard = toWords(sentence);
      expect(heard.original).toHaveLength(heard.words.length);
      expect(heard.spans).toHaveLength(heard.words.length);
      for (const word of heard.words) expect(word).toMatch(/^[^\s\p{Cc}]+$/u);
    }),
  );
});

test("a very long sentence costs little and stops at 400 words", () => {
  const started = performance.now();
  expect(toWords("1 ".repeat(50_000)).words).toHaveLength(400);
  expect(toWords("9".repeat(100_000)).words).toHaveLength(1);
  toWords("'".repeat(100_000));
  toWords("a-".repeat(50_000));
  toWords("1,".repeat(50_000));
  expect(performance.now() - started).toBeLessThan(500);
});
