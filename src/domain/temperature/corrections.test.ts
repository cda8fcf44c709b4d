import fc from "fast-check";
import { expect, test } from "vitest";
import { commonPractice, fromSheet, told } from "../origin.ts";
import { type Celsius, celsius, type Seconds, seconds } from "../units/quantity.ts";
import { type Corrections, correctedTime, explainCorrection } from "./corrections.ts";

const origin = fromSheet("garden");
const given = (change: Partial<Corrections> = {}): Corrections => ({
  time: seconds(200),
  origin,
  aim: celsius(38),
  ...change,
});
const reuse = (units: number) => ({
  rule: { kind: "percent" as const, percent: 5, compounded: false, origin },
  before: { units, batches: units },
});
const push = (stops: number) => ({
  rule: { kind: "seconds" as const, seconds: seconds(30), origin: commonPractice },
  stops,
});
const bath = (at: number, q10 = 2) => ({
  at: celsius(at),
  law: { kind: "q10" as const, q10, origin: told },
});

test("the order is sheet, re-use, push, temperature, and every step has its line", () => {
  const corrected = correctedTime(given({ reuse: reuse(2), push: push(1), temperature: bath(37) }));
  if (!corrected.ok) throw new Error(corrected.error.kind);
  const { steps, from, to, estimate } = corrected.value;
  expect(steps.map(({ kind }) => kind)).toEqual(["sheet", "re-use", "push", "temperature"]);
  expect(steps.map(({ to: after }) => Math.round(after * 100) / 100)).toEqual([
    200,
    220,
    250,
    Math.round(250 * 2 ** 0.1 * 100) / 100,
  ]);
  expect(from).toBe(to);
  expect(estimate).toBe(false);
  expect(steps[0]?.how).toBe("3:20 at 38 °C; sheet: garden");
  expect(steps[3]?.how).toContain("1 °C below the aim: 4:10 × 1.072; factor 2 for 10 °C");
});

test("nothing to correct leaves the sheet's time alone", () => {
  for (const same of [given(), given({ temperature: bath(38) }), given({ reuse: reuse(0) })]) {
    const corrected = correctedTime(same);
    expect(corrected.ok && corrected.value.to).toBeCloseTo(200, 9);
  }
});

test("with no law for temperature it is an estimate with two ends", () => {
  const corrected = correctedTime(given({ temperature: { at: celsius(37), law: undefined } }));
  expect(corrected.ok && corrected.value.estimate).toBe(true);
  expect(corrected.ok && corrected.value.from).toBeCloseTo(200 * 1.4 ** 0.1, 9);
  expect(corrected.ok && corrected.value.to).toBeCloseTo(200 * 2.9 ** 0.1, 9);
});

test.each<{ name: string; change: Partial<Corrections>; says: string }>([
  {
    name: "more than double",
    change: { reuse: reuse(10), push: push(4), temperature: bath(36) },
    says: "All corrections together make 8:02 of the sheet's 3:20, 2.41 times, and I go from 1:40 to 6:40",
  },
  { name: "less than half", change: { push: push(-4) }, says: "0.4 times" },
  {
    name: "one end of an estimate",
    change: { push: push(3), temperature: { at: celsius(34), law: undefined } },
    says: "times to 2.22 times",
  },
  {
    name: "tighter limits",
    change: { push: push(2), limits: { least: 0.8, most: 1.2 } },
    says: "1.3 times",
  },
  { name: "nothing left", change: { push: push(-7) }, says: "leaves no time at all" },
  { name: "stops without end", change: { push: push(5000) }, says: "10 at most" },
  { name: "film before is no number", change: { reuse: reuse(Number.NaN) }, says: "leave no time" },
  {
    name: "no aim",
    change: { aim: undefined, temperature: bath(37) },
    says: "I need the temperature",
  },
  { name: "too far", change: { temperature: bath(49) }, says: "from 28 °C to 48 °C" },
  { name: "no time", change: { time: seconds(0) }, says: "I need the developer's time" },
])("refused: $name", ({ change, says }) => {
  const corrected = correctedTime(given(change));
  expect(corrected.ok ? "" : explainCorrection(corrected.error)).toContain(says);
});

test("a row that a push table lacks is said with those it has", () => {
  const rule = { kind: "table" as const, rows: [{ at: 1, time: seconds(230) }], origin };
  const corrected = correctedTime(given({ push: { rule, stops: 2 } }));
  expect(corrected.ok ? "" : explainCorrection(corrected.error)).toContain(
    "push table has no push 2",
  );
});

test("a re-use table that ends before this tank says so", () => {
  const rule = {
    kind: "table" as const,
    rows: [{ at: 2, time: seconds(210) }],
    means: "done" as const,
    origin,
  };
  const corrected = correctedTime(given({ reuse: { rule, before: { units: 5, batches: 5 } } }));
  expect(corrected.ok && corrected.value).toMatchObject({ to: 210, beyondReuse: true });
});

test("what comes out lies inside the limits, and is finite", () => {
  const wild = fc.double() as fc.Arbitrary<Seconds & Celsius>;
  const near = fc.double({ min: 30, max: 46, noNaN: true }) as unknown as typeof wild;
  fc.assert(
    fc.property(
      fc.oneof(wild, near),
      fc.oneof(wild, near),
      fc.double({ min: -12, max: 12 }),
      fc.double({ min: -1, max: 600 }),
      (time, at, stops, units) => {
        const corrected = correctedTime({
          ...given({ time, reuse: reuse(units), push: push(stops) }),
          temperature: { at, law: undefined },
        });
        if (!corrected.ok) {
          expect(explainCorrection(corrected.error)).not.toContain("NaN");
          return;
        }
        expect(corrected.value.from / time).toBeGreaterThanOrEqual(0.5 - 1e-6);
        expect(corrected.value.to / time).toBeLessThanOrEqual(2 + 1e-6);
      },
    ),
    { numRuns: 500 },
  );
});
