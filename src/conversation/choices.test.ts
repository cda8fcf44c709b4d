import { expect, test } from "vitest";
import { pick } from "./choices.ts";

const of = (...words: readonly string[]) => words.map((word) => ({ word }));
const dates = of(
  "Saturday 5 December 2026, 10:00 (10 am)",
  "Saturday 5 December 2026, 22:00 (10 pm)",
  "Saturday 12 December 2026, 10:00 (10 am)",
);

test.each([
  ["first", 0],
  ["first one", 0],
  ["the first one", 0],
  ["the second", 1],
  ["third please", 2],
  ["last", 2],
  ["the last one", 2],
  ["number two", 1],
  ["number 2", 1],
  ["option three", 2],
  ["2nd", 1],
  ["2", 1],
  ["12 december", 2],
])("%s chooses by its place", (said, index) => {
  expect(pick(dates, said)).toBe(dates[index]);
});

test.each(["fourth", "number nine", "next", "one two"])("%s chooses nothing", (said) => {
  expect(pick(dates, said)).toBeUndefined();
});

test("a choice that is called so goes before the place it has", () => {
  const washes = of("second wash", "first wash", "final wash");
  expect(pick(washes, "first")?.word).toBe("first wash");
  expect(pick(washes, "second")?.word).toBe("second wash");
  const several = of("first wash", "second wash", "second developer");
  expect(pick(several, "second")).toBeUndefined();
});

test("yes and no have no places, and a day of the month is no place", () => {
  expect(pick(of("yes", "no"), "first")).toBeUndefined();
  expect(pick(of("Saturday 5 December", "Wednesday 2 December"), "the second")).toBeUndefined();
});
