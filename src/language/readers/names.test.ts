import { expect, test } from "vitest";
import { readAll, readWhole } from "../../../test/support/reading.ts";
import { nameReader } from "./names.ts";

const names = {
  bottle: new Map([
    ["dora", "b1"],
    ["dora two", "b2"],
    ["Old Dev", "b3"],
    ["bottle", "b4"],
  ]),
  sheet: new Map([["demo kit", "s1"]]),
  tank: new Map([["north", "t1"]]),
};
const bottle = nameReader("bottle");

test.each([
  ["dora", "b1"],
  ["the bottle Dora", "b1"],
  ["dora bottle", "b1"],
  ["bottle dora two", "b2"],
  ["Dora's", "b1"],
  ["old developer", "b3"],
  ["bottle", "b4"],
  ["ada", "nothing"],
  ["constructor", "nothing"],
])("%j is bottle %s", (phrase, id) => {
  expect(readWhole(bottle, phrase, { names })).toBe(id);
});

test("the longest name comes first, the shorter one stays possible", () => {
  expect(readAll(bottle, "dora two rolls", { names })).toEqual([
    ["b2", 2],
    ["b1", 1],
  ]);
});

test("each kind looks at its own names", () => {
  expect(readWhole(nameReader("tank"), "the north tank", { names })).toBe("t1");
  expect(readWhole(nameReader("sheet"), "sheet demo kit", { names })).toBe("s1");
  expect(readWhole(nameReader("tank"), "dora", { names })).toBe("nothing");
});

test("a name taught later is known at once", () => {
  const growing = new Map([["dora", "b1"]]);
  const bench = { names: { ...names, bottle: growing } };
  expect(readWhole(bottle, "ada", bench)).toBe("nothing");
  growing.set("ada", "b9");
  expect(readWhole(bottle, "ada", bench)).toBe("b9");
});
