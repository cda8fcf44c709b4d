import fc from "fast-check";
import { expect, test } from "vitest";
import type { ReuseRule } from "../process/sheet.ts";
import { seconds } from "../units/quantity.ts";
import { reuseTime } from "./reuse-time.ts";

const origin = { kind: "invented" as const };
const s = seconds;
const percent = (value: number, compounded = false): ReuseRule => ({
  kind: "percent",
  percent: value,
  compounded,
  origin,
});
const table = (means: "done" | "this"): ReuseRule => ({
  kind: "table",
  means,
  origin,
  rows: [
    { at: 1, time: s(195) },
    { at: 2, time: s(200) },
    { at: 3, time: s(210) },
  ],
});
const time = (rule: ReuseRule, units: number, batches = 0): number =>
  reuseTime(s(195), rule, { units, batches }).time;

test("10 % for each film after the first, of the base time: ID-11 fact sheet (from memory)", () => {
  const base = s(600);
  const times = [0, 1, 2, 9].map(
    (done) => reuseTime(base, percent(10), { units: done, batches: 0 }).time,
  );
  expect(times.map((one) => Math.round(one * 1e6) / 1e6)).toEqual([600, 660, 720, 1140]);
});

test("with half the solution for a roll, 10 % more: D-76 1:1, F-4017 footnote (from memory)", () => {
  expect(reuseTime(s(600), percent(10), { units: 1, batches: 0 }).added).toBeCloseTo(60, 9);
});

test("compounded only where the sheet says so", () => {
  expect(time(percent(10), 3)).toBeCloseTo(195 * 1.3, 9);
  expect(time(percent(10, true), 3)).toBeCloseTo(195 * 1.331, 9);
});

test("seconds per roll count film, seconds per tank count tanks", () => {
  const each = (per: "unit" | "batch"): ReuseRule => ({
    kind: "seconds",
    seconds: s(5),
    per,
    origin,
  });
  expect(time(each("unit"), 2.5, 1)).toBe(195 + 12.5);
  expect(time(each("batch"), 2.5, 1)).toBe(200);
});

test.each([
  { done: 0, byDone: 195, byThis: 195 },
  { done: 1, byDone: 195, byThis: 200 },
  { done: 2, byDone: 200, byThis: 210 },
  { done: 0.7, byDone: 195, byThis: 200 },
  { done: 1.4, byDone: 200, byThis: 210 },
])("a table after $done: $byDone s by done so far, $byThis s by this one", (row) => {
  expect(time(table("done"), row.done)).toBe(row.byDone);
  expect(time(table("this"), row.done)).toBe(row.byThis);
});

test("the two meanings are one row apart: this one after n is done so far after n and one", () => {
  const law = fc.property(fc.integer({ min: 0, max: 2 }), (done) => {
    expect(time(table("this"), done)).toBe(time(table("done"), done + 1));
  });
  fc.assert(law);
});

test("beyond its last row a table gives that row and says so", () => {
  expect(reuseTime(s(195), table("done"), { units: 3, batches: 0 }).beyond).toBe(false);
  const beyond = reuseTime(s(195), table("this"), { units: 3, batches: 0 });
  expect([beyond.time, beyond.beyond]).toEqual([210, true]);
});

test("no rule ever shortens a time, and a fresh bath takes the sheet's", () => {
  const rule = fc.oneof(
    fc.double({ min: 0.1, max: 30, noNaN: true }).map((value) => percent(value)),
    fc.double({ min: 0.1, max: 30, noNaN: true }).map((value) => percent(value, true)),
    fc
      .integer({ min: 1, max: 60 })
      .map((value): ReuseRule => ({ kind: "seconds", seconds: s(value), per: "unit", origin })),
  );
  const law = fc.property(rule, fc.nat(20), fc.nat(20), (one, a, b) => {
    const [less, more] = [Math.min(a, b), Math.max(a, b)];
    expect(time(one, 0)).toBe(195);
    expect(time(one, more)).toBeGreaterThanOrEqual(time(one, less));
  });
  fc.assert(law);
});

test("the working names the rule, the film and the origin", () => {
  const { how } = reuseTime(s(195), percent(4), { units: 2, batches: 1 });
  expect(how).toBe("4 % per roll of the sheet's time, 2 done: 3:15 × 1.08; invented for the demo");
});
