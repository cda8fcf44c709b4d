import { expect, test } from "vitest";
import { doubtfulNumbers, spellOut } from "./numbers.ts";

test.each([
  ["fifteen rolls", ["fifteen"], "fifteen, one five, rolls"],
  ["fifty", ["fifty"], "fifty, five zero"],
  ["fifty three rolls", [], "fifty three rolls"],
  ["thirty point five", [], "thirty point five"],
  ["six hundred and fifty millilitres", ["fifty"], "six hundred and fifty, five zero, millilitres"],
  ["two rolls", [], "two rolls"],
])("%s", (said, doubtful, spelt) => {
  const words = said.split(" ");
  expect(doubtfulNumbers(words)).toEqual(doubtful);
  expect(spellOut(words)).toBe(spelt);
});
