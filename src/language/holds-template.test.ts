import { expect, test } from "vitest";
import { holdsTemplate, isTemplate } from "./holds-template.ts";
import { toWords } from "./words.ts";

const cut = "(cut|sliced) [my|his] (hand|finger)";

test.each([
  ["I cut my hand", true],
  ["the glass broke, cut finger", true],
  ["cut the hand", false],
  ["I cut my handle", false],
  ["uncut my hand", false],
  ["", false],
])("%s holds it: %s", (sentence, held) => {
  expect(holdsTemplate(cut)(toWords(sentence).words)).toBe(held);
});

test("a slot is any one word", () => {
  const holds = holdsTemplate("broke [the] [{word}] thermometer");
  expect(holds(["broke", "the", "red", "thermometer"])).toBe(true);
  expect(holds(["broke", "the", "big", "red", "thermometer"])).toBe(false);
});

test("a whole sentence has nothing before it and nothing behind", () => {
  const is = isTemplate(cut);
  expect(
    ["cut my hand", "i cut my hand", "cut my hand off"].map((said) => is(said.split(" "))),
  ).toEqual([true, false, false]);
});

test("signs in a template are themselves", () => {
  expect(isTemplate("c++ (a.b)")(["c++", "aXb"])).toBe(false);
  expect(isTemplate("c++ (a.b)")(["c++", "a.b"])).toBe(true);
});

test("words in any order are a mistake that is found at start", () => {
  expect(() => holdsTemplate("<a / b>")).toThrow();
});
