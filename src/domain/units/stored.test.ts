import { expect, test } from "vitest";
import { z } from "zod";
import { storedById, storedDay, storedId, storedInstant, storedPastDay } from "./stored.ts";

const takes = (schema: z.ZodType, value: unknown): boolean => schema.safeParse(value).success;

test("an instant is a whole count of milliseconds between film's first year and the last of four digits", () => {
  expect(storedInstant.parse(1_795_894_200_000.4)).toBe(1_795_894_200_000);
  expect(storedInstant.parse(1e-300)).toBe(0);
  const within = [Date.UTC(1826, 0, 1), 0, Date.UTC(9999, 11, 31, 23, 59)];
  expect(within.every((at) => takes(storedInstant, at))).toBe(true);
  const beyond = [-8.64e15, Date.UTC(1825, 11, 31), 253_500_000_000_000, 8.64e15];
  expect(beyond.some((at) => takes(storedInstant, at))).toBe(false);
});

test.each([
  ["1825-12-31", false, false],
  ["1826-01-01", true, true],
  ["2026-11-28", true, true],
  ["3000-01-01", true, true],
  ["3000-01-02", true, false],
  ["9999-12-31", true, false],
  ["2026-02-30", false, false],
  ["+010000-01-01", false, false],
])("%s: a day to come %s, a day of something done %s", (day, ahead, done) => {
  expect(takes(storedDay, day)).toBe(ahead);
  expect(takes(storedPastDay, day)).toBe(done);
});

test.each(["toString", "constructor", "__proto__", "hasOwnProperty", "valueOf"])(
  "%s is the id of nothing",
  (word) => {
    expect(takes(storedId, word)).toBe(false);
    expect(takes(storedId, `${word}-1`)).toBe(true);
  },
);

test("what is kept under an id says the same id", () => {
  const bottles = storedById(z.object({ id: storedId, name: z.string() }));
  expect(takes(bottles, { a: { id: "a", name: "Acorn" } })).toBe(true);
  const wrong = bottles.safeParse({ a: { id: "b", name: "Acorn" } });
  expect(wrong.error?.issues.map(({ path }) => path)).toEqual([["a", "id"]]);
});
