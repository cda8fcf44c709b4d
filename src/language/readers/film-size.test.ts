import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { filmArea, filmUnits, sheetAround, showFilm } from "../../domain/film/load.ts";
import { readFilm } from "./film.ts";
import { type FilmSize, readFilmSize } from "./film-size.ts";

test.each([
  ["9x12 cm", 9 / 2.54, 12 / 2.54],
  ["9 by 12 centimetres", 9 / 2.54, 12 / 2.54],
  ["5 x 8 inches", 5, 8],
  ["2.25x3.25 inch", 2.25, 3.25],
])("%s", (phrase, wide, high) => {
  const size = readWhole(readFilmSize, phrase) as FilmSize;
  expect(size.wide).toBeCloseTo(wide, 9);
  expect(size.high).toBeCloseTo(high, 9);
});

test.each(["9x12", "9 cm", "x 12 cm", "two 120"])("%s names no size with its unit", (phrase) => {
  expect(readWhole(readFilmSize, phrase)).toBe("nothing");
});

test("sheets of a size without a name count by their area", () => {
  const size = { wide: 5, high: 8 };
  expect(readWhole(readFilm, "six 5x8 inch sheets")).toEqual([{ count: 6, size }]);
  expect(readWhole(readFilm, "six sheets of 5x8 inch")).toEqual([{ count: 6, size }]);
  const film = [{ format: sheetAround(size), count: 6, size }];
  expect(filmArea(film)).toBe(240);
  expect(filmUnits(film)).toBe(3);
  expect(showFilm(film)).toBe("6 sheets of 5 by 8 in");
});

test.each([
  [3.5, 4.7, "4x5"],
  [4.7, 3.5, "4x5"],
  [5, 7, "5x7"],
  [5, 8, "8x10"],
  [11, 14, "8x10"],
])("a sheet of %d by %d in lies inside %s", (wide, high, format) => {
  expect(sheetAround({ wide, high })).toBe(format);
});
