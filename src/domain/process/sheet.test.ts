import { expect, test } from "vitest";
import { bathsCalled, isDeveloper, isWater, type Sheet, spoilsDeveloper } from "./sheet.ts";

const sheet: Sheet = {
  id: "test",
  name: "test",
  called: [],
  process: "C-41",
  invented: false,
  baths: [
    { name: "prewash", kind: "prewash", sense: "at least" },
    { name: "colour developer", kind: "colour developer", sense: "exact" },
    { name: "blix", kind: "blix", sense: "at least" },
    { name: "first wash", kind: "wash", sense: "at least" },
    { name: "second wash", kind: "wash", sense: "at least" },
  ],
};

test.each([
  { word: "blix", names: ["blix"] },
  { word: "wash", names: ["first wash", "second wash"] },
  { word: "second wash", names: ["second wash"] },
  { word: "developer", names: ["colour developer"] },
  { word: "colour developer", names: ["colour developer"] },
  { word: "stop", names: [] },
])("$word means $names", ({ word, names }) => {
  expect(bathsCalled(sheet, word).map(({ name }) => name)).toEqual(names);
});

test("colour or first developer is enough for a sheet that has just a developer", () => {
  const plain: Sheet = {
    ...sheet,
    baths: [{ name: "developer", kind: "developer", sense: "exact" }],
  };
  expect(bathsCalled(plain, "colour developer").map(({ name }) => name)).toEqual(["developer"]);
  expect(bathsCalled(plain, "first developer").map(({ name }) => name)).toEqual(["developer"]);
});

test("a little fixer, blix or stop spoils developer; washing water does not: SS0509-8 Laboratory Procedures, p. 11 (read)", () => {
  expect(["fixer", "blix", "bleach", "stop"].every(spoilsDeveloper)).toBe(true);
  expect(["wash", "prewash", "developer"].some(spoilsDeveloper)).toBe(false);
});

test("kinds are told apart", () => {
  expect(["developer", "colour developer", "first developer"].every(isDeveloper)).toBe(true);
  expect(["blix", "wash"].some(isDeveloper)).toBe(false);
  expect(["wash", "prewash"].every(isWater)).toBe(true);
  expect(["stabilizer", "stop"].some(isWater)).toBe(false);
});
