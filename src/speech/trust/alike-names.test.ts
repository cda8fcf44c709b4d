import { expect, test } from "vitest";
import bottleNames from "../../../data/bottle-names.json" with { type: "json" };
import { soundsLike } from "./alike-names.ts";

test.each([
  ["dora", "nora"],
  ["falcon", "falkon"],
  ["rocket", "locket"],
])("%s and %s sound alike", (one, other) => {
  expect(soundsLike(one, other)).toBe(true);
});

test("no two names of our own list do", () => {
  const { names } = bottleNames;
  const pairs = names.flatMap((one, at) =>
    names
      .slice(at + 1)
      .filter((other) => soundsLike(one, other))
      .map((other) => `${one} ${other}`),
  );
  expect(pairs).toEqual([]);
});
