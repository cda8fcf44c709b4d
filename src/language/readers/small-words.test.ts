import { expect, test } from "vitest";
import { readAll, readWhole } from "../../../test/support/reading.ts";
import { readCount } from "./count.ts";
import { readCountry } from "./country.ts";
import { readDegrees } from "./degrees.ts";
import { readNewName, readNewTank, readText, readWord } from "./free-text.ts";
import { readYes } from "./yes.ts";

test.each([
  ["Yes!", true],
  ["yep", true],
  ["okay", true],
  ["that's right", true],
  ["do it", true],
  ["no", false],
  ["never mind", false],
  ["don't", false],
  ["cancel", false],
  ["maybe", "nothing"],
])("%j answers %s", (phrase, value) => {
  expect(readWhole(readYes, phrase)).toBe(value);
});

test.each([
  ["two", 2],
  ["2", 2],
  ["a", 1],
  ["a couple of", 2],
  ["0", 0],
  ["-2", -2],
  ["2.5", 2.5],
])("%j counts %d", (phrase, value) => {
  expect(readWhole(readCount, phrase)).toBe(value);
});

test("countries and scales", () => {
  expect(readWhole(readCountry, "U.S.")).toBe("us");
  expect(readWhole(readCountry, "british")).toBe("imperial");
  expect(readWhole(readDegrees, "degrees C")).toBe("C");
  expect(readWhole(readDegrees, "Fahrenheit")).toBe("F");
});

test("free words are taken in every length, longest first", () => {
  expect(readAll(readText, "thin and grey")).toEqual([
    ["thin and gray", 3],
    ["thin and", 2],
    ["thin", 1],
  ]);
  expect(readAll(readWord, "one two")).toEqual([["one", 1]]);
  expect(readAll(readNewName, "old dora again")).toEqual([
    ["old dora", 2],
    ["old", 1],
  ]);
});

test("a new tank's name goes without the word tank", () => {
  expect(readAll(readNewTank, "tank north")[0]).toEqual(["north", 2]);
  expect(readAll(readNewTank, "the big north tank")[0]).toEqual(["big north", 4]);
  expect(readWhole(readNewTank, "tank")).toBe("nothing");
});

test.each([
  ["rocket mixed today", ["rocket"]],
  ["rocket 1 litre", ["rocket"]],
  ["south two rolls", ["south"]],
  ["south at 38", ["south"]],
  ["south please", ["south"]],
  ["north two", ["north two", "north"]],
  ["two", ["two"]],
  ["big rocket mixed today", ["big rocket", "big"]],
])("the new name in %j ends where the sentence goes on", (phrase, names) => {
  expect(readAll(readNewName, phrase).map(([name]) => name)).toEqual(names);
});
