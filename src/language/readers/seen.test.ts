import { expect, test } from "vitest";
import { toWords } from "../words.ts";
import { readSeen } from "./seen.ts";

test.each([
  ["crisp edge numbers, clear parts clear", { edgeNumbers: "crisp", clearParts: "clear" }],
  ["edge numbers are faint and clear parts cloudy", { edgeNumbers: "faint", clearParts: "cloudy" }],
  ["edge numbers missing", { edgeNumbers: "missing" }],
  ["crisp, clear and clean", { edgeNumbers: "crisp", clearParts: "clear", rebate: "sound" }],
])("%s", (said, value) => {
  const { words } = toWords(said);
  expect(readSeen(words, 0)[0]).toEqual({ value, next: words.length });
});
