import { expect, test } from "vitest";
import { quietBench, readWhole } from "../../../test/support/reading.ts";
import { readBathEnds } from "./bath-ends.ts";
import { readForm } from "./form.ts";
import { readRgb } from "./rgb.ts";
import { readSeen } from "./seen.ts";
import { readSinceDate } from "./since-date.ts";

test.each<[string, unknown]>([
  ["38.1 and 37.8", { said: [38.1, 37.8] }],
  ["38.1, 37.8", { said: [38.1, 37.8] }],
  ["thirty eight and thirty seven point five", { said: [38, 37.5] }],
  ["38", { said: [38] }],
  ["38.1 at the start and 37.8 at the end", { start: 38.1, end: 37.8 }],
  ["start 38.1 end 37.8", { start: 38.1, end: 37.8 }],
  ["37.8 at the end", { end: 37.8 }],
  ["100 f and 99 f", { said: [37.77777777777778, 37.22222222222222] }],
  ["not measured", { skip: true }],
  ["no", { skip: true }],
  ["warm", "nothing"],
  ["38 37 36", "nothing"],
])("%s is read as %j", (said, value) => {
  expect(readWhole(readBathEnds, said)).toEqual(value);
});

test.each<[string, unknown]>([
  ["201 128 90", { red: 201, green: 128, blue: 90, most: 255 }],
  ["201,128,90", { red: 201, green: 128, blue: 90, most: 255 }],
  ["201, 128 and 90", { red: 201, green: 128, blue: 90, most: 255 }],
  ["red 201 green 128 blue 90", { red: 201, green: 128, blue: 90, most: 255 }],
  ["rgb 0/0/0", { red: 0, green: 0, blue: 0, most: 255 }],
  ["the grey is 120 119 118", { red: 120, green: 119, blue: 118, most: 255 }],
  ["51000 30000 20000", { red: 51000, green: 30000, blue: 20000, most: 65535 }],
  ["78 50 35 percent", { red: 78, green: 50, blue: 35, most: 100 }],
  ["78 50 35 of 1023", { red: 78, green: 50, blue: 35, most: 1023 }],
  ["201 128", "nothing"],
  ["-1 2 3", "nothing"],
  ["70000 1 1", "nothing"],
  ["300 1 1 of 255", "nothing"],
])("%s is read as %j", (said, value) => {
  expect(readWhole(readRgb, said)).toEqual(value);
});

test.each<[string, unknown]>([
  ["crisp", { edgeNumbers: "crisp" }],
  ["no numbers", { edgeNumbers: "missing" }],
  ["crisp but cloudy", { edgeNumbers: "crisp", clearParts: "cloudy" }],
  ["crisp, milky and fogged", { edgeNumbers: "crisp", clearParts: "cloudy", rebate: "fogged" }],
  ["only one roll", { sameOnAll: false }],
  ["the same place on each frame", { place: "same" }],
  ["skip", { skip: true }],
  ["scanner", { scanner: true }],
  ["purple", "nothing"],
])("%s is seen as %j", (said, value) => {
  expect(readWhole(readSeen, said)).toEqual(value);
});

/** Today is Saturday 28 November 2026 in New York. */
test.each<[string, unknown]>([
  ["march", "2026-03-01"],
  ["december", "2025-12-01"],
  ["march 2024", "2024-03-01"],
  ["2025", "2025-01-01"],
  ["1 september 2026", "2026-09-01"],
])("since %s begins on %s", (said, value) => {
  expect(readWhole(readSinceDate, said, quietBench)).toBe(value);
});

test.each([
  ["markdown", "markdown"],
  ["json", "json"],
  ["an image", "picture"],
  ["plain text", "text"],
])("as %s", (said, form) => {
  expect(readWhole(readForm, said)).toBe(form);
});
