import { expect, test } from "vitest";
import { rounded } from "./round-values.ts";

test.each([
  ["off_c", 0.30000000000000426, 0.3],
  ["off_c", 38.1 - 37.8, 0.3],
  ["off_c", 1e-14, 0],
  ["off_c", -0.0000001, 0],
  ["temp_c", 37.77777777777778, 37.778],
  ["time_s", 459.54123456, 459.541],
  ["water_ml", 946.352946, 946.352946],
  ["units", 2 / 3, 0.666666666667],
  ["used", 0.1 + 0.7, 0.8],
  ["units", 3, 3],
])("%s %d leaves as %d", (key, value, out) => {
  expect(rounded(value, key)).toBe(out);
});

test("lists and rows are rounded by their own keys, and words stay", () => {
  expect(
    rounded([{ temp_c: 0.1 + 0.2, bath: "blix", at_s: [1 / 3], none: null }], "stages"),
  ).toEqual([{ temp_c: 0.3, bath: "blix", at_s: [0.333], none: null }]);
});
