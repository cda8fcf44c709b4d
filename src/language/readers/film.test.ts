import { expect, test } from "vitest";
import { readAll, readWhole } from "../../../test/support/reading.ts";
import { readFilm } from "./film.ts";

const of = (count: number, format?: string) =>
  format === undefined ? { count } : { count, format };

test.each([
  ["two rolls", [of(2)]],
  ["a roll", [of(1)]],
  ["2", [of(2)]],
  ["120", [of(1, "120")]],
  ["two 120", [of(2, "120")]],
  ["2 x 120", [of(2, "120")]],
  ["2x120", [of(2, "120")]],
  ["two 120 and a 135", [of(2, "120"), of(1, "135")]],
  ["two 120s plus one 220", [of(2, "120"), of(1, "220")]],
  ["one roll of 120", [of(1, "120")]],
  ["two rolls of one twenty", [of(2, "120")]],
  ["two one twenty", [of(2, "120")]],
  ["one twenty", [of(1, "120")]],
  ["a hundred and twenty", [of(1, "120")]],
  ["3 rolls 135-36", [of(3, "135-36")]],
  ["3 rolls of 135-24", [of(3, "135-24")]],
  ["a 135 24 exposure", [of(1, "135-24")]],
  ["a 24 exposure 135", [of(1, "135-24")]],
  ["one 36-exposure roll", [of(1, "135-36")]],
  ["a roll of 36", [of(1, "135-36")]],
  ["two rolls of 36 exposures", [of(2, "135-36")]],
  ["two 35mm rolls", [of(2, "135")]],
  ["two rolls of 35 mm", [of(2, "135")]],
  ["four 4x5 sheets", [of(4, "4x5")]],
  ["four sheets of 4x5", [of(4, "4x5")]],
  ["four four by five sheets", [of(4, "4x5")]],
  ["4 4×5", [of(4, "4x5")]],
  ["an 8x10", [of(1, "8x10")]],
  ["two 5 by 7 sheets", [of(2, "5x7")]],
  ["a couple of rolls of 120", [of(2, "120")]],
  ["three rolls of 120 and one of 135", [of(3, "120"), of(1, "135")]],
  ["four sheets", [{ count: 4, shape: "sheet" }]],
  ["0 rolls", [of(0)]],
  ["-2 rolls", [of(-2)]],
  ["one 120, two 135-36 and four 4x5", [of(1, "120"), of(2, "135-36"), of(4, "4x5")]],
])("%j", (phrase, load) => {
  expect(readWhole(readFilm, phrase)).toEqual(load);
});

test.each(["1e309 rolls", "1e309", "nan sheets"])("%j is refused", (phrase) => {
  expect(JSON.stringify(readWhole(readFilm, phrase))).toContain("unreadable");
});

test.each(["36", "24", "a", "of", "tank north", "x"])("%j is no film", (phrase) => {
  expect(readWhole(readFilm, phrase)).toBe("nothing");
});

test("a number behind the film is left alone", () => {
  expect(readAll(readFilm, "two rolls and 500 ml")[0]).toEqual([[of(2)], 2]);
});
