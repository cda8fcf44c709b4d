import fc from "fast-check";
import * as mathjs from "mathjs";
import { expect, test } from "vitest";
import { type Celsius, celsius, celsiusDifference, instant, later } from "../units/quantity.ts";
import { explainNewton, learnCooling, temperatureAt, whenInside, whenReaches } from "./newton.ts";

const start = instant(1_800_000_000_000);
const minutes = (n: number) => later(start, n * 60);
const reading = (n: number, temperature: number) => ({
  at: minutes(n),
  temperature: temperature as Celsius,
});
const since = (at: number): number => (at - start) / 60_000;

function learned(...given: Parameters<typeof learnCooling>) {
  const cooling = learnCooling(...given);
  if (!cooling.ok) throw new Error(cooling.error.kind);
  return cooling.value;
}

test("46 to 44 °C in 10 min at 20 °C reaches 38.0 after 46 min and stays within 0.15 °C for about 2: own calculation (derived)", () => {
  const cooling = learned(reading(0, 46), reading(10, 44), celsius(20));
  expect(cooling.perMinute).toBeCloseTo(Math.log(26 / 24) / 10, 12);
  const there = whenReaches(cooling, celsius(38));
  expect(there.ok && since(there.value)).toBeCloseTo(45.94, 2);
  const inside = whenInside(cooling, celsius(38), celsiusDifference(0.15));
  expect(inside.ok && inside.value.lasts).toBeCloseTo(60 * 2.08, 0);
  expect(inside.ok && since(inside.value.from)).toBeCloseTo(44.9, 1);
});

test("warming is the same law", () => {
  const cooling = learned(reading(0, 10), reading(5, 12), celsius(24));
  const there = whenReaches(cooling, celsius(20));
  expect(there.ok && since(there.value)).toBeCloseTo((5 * Math.log(14 / 4)) / Math.log(14 / 12), 6);
  const inside = whenInside(cooling, celsius(24), celsiusDifference(0.5));
  expect(inside.ok && inside.value).toMatchObject({ to: undefined, lasts: undefined });
});

test("inside already: the window began in the past", () => {
  const cooling = learned(reading(0, 38.5), reading(10, 38), celsius(20));
  const inside = whenInside(cooling, celsius(38), celsiusDifference(0.15));
  expect(inside.ok && since(inside.value.from)).toBeLessThan(10);
  expect(inside.ok && inside.value.to !== undefined && since(inside.value.to)).toBeGreaterThan(10);
});

test.each<{
  name: string;
  first: [number, number];
  second: [number, number];
  room: number;
  kind: string;
}>([
  { name: "one instant", first: [0, 46], second: [0, 44], room: 20, kind: "not-later" },
  { name: "wrong order", first: [10, 46], second: [0, 44], room: 20, kind: "not-later" },
  { name: "no movement", first: [0, 46], second: [10, 46], room: 20, kind: "not-moving" },
  { name: "heater on", first: [0, 44], second: [10, 46], room: 20, kind: "away-from-room" },
  { name: "through the room", first: [0, 21], second: [10, 19], room: 20, kind: "past-room" },
  { name: "from the room", first: [0, 20], second: [10, 19], room: 20, kind: "past-room" },
  { name: "to the room", first: [0, 21], second: [10, 20], room: 20, kind: "past-room" },
  { name: "boiling", first: [0, 104], second: [10, 46], room: 20, kind: "impossible-temperature" },
  {
    name: "no number",
    first: [0, Number.NaN],
    second: [10, 46],
    room: 20,
    kind: "impossible-temperature",
  },
])("$name: $kind", ({ first, second, room, kind }) => {
  const cooling = learnCooling(reading(...first), reading(...second), celsius(room));
  expect(cooling.ok ? "" : cooling.error.kind).toBe(kind);
  expect(cooling.ok ? "" : explainNewton(cooling.error)).not.toContain("NaN");
});

test.each([
  { target: 20, kind: "never" },
  { target: 18, kind: "never" },
  { target: 45, kind: "passed" },
  { target: 120, kind: "impossible-temperature" },
])("$target °C: $kind", ({ target, kind }) => {
  const cooling = learned(reading(0, 46), reading(10, 44), celsius(20));
  const there = whenReaches(cooling, celsius(target));
  expect(there.ok ? "" : there.error.kind).toBe(kind);
  expect(there.ok ? "" : explainNewton(there.error).length).toBeGreaterThan(20);
  const inside = whenInside(cooling, celsius(target), celsiusDifference(0.1));
  const stays = target === 20;
  expect(inside.ok).toBe(stays);
});

test("a tolerance of zero is refused", () => {
  const cooling = learned(reading(0, 46), reading(10, 44), celsius(20));
  const inside = whenInside(cooling, celsius(38), celsiusDifference(0));
  expect(inside.ok ? "" : explainNewton(inside.error)).toBe("I need a tolerance above zero.");
});

const cases = fc
  .record({
    room: fc.double({ min: 5, max: 35, noNaN: true }),
    above: fc.double({ min: 1, max: 30, noNaN: true }),
    kept: fc.double({ min: 0.3, max: 0.93, noNaN: true }),
    between: fc.integer({ min: 1, max: 60 }),
    cold: fc.boolean(),
  })
  .map(({ room, above, kept, between, cold }) => {
    const side = cold ? -Math.min(above, room) : above;
    return { room, between, first: room + side, second: room + side * kept };
  });

test("the closed form: both readings come back, and the forecast agrees with its own inverse", () => {
  fc.assert(
    fc.property(cases, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (one, share) => {
      const cooling = learned(
        reading(0, one.first),
        reading(one.between, one.second),
        celsius(one.room),
      );
      const { room, perMinute } = cooling;
      expect(temperatureAt(cooling, start)).toBeCloseTo(one.first, 6);
      const closed = room + (one.first - room) * Math.exp(-perMinute * 30);
      expect(temperatureAt(cooling, minutes(30))).toBeCloseTo(closed, 6);
      const target = celsius(room + (one.second - room) * share);
      const there = whenReaches(cooling, target);
      expect(there.ok && temperatureAt(cooling, there.value)).toBeCloseTo(target, 4);
    }),
  );
});

type Solver = (
  slope: (t: number, y: readonly number[]) => number[],
  span: readonly [number, number],
  from: readonly number[],
  options: { tol: number; firstStep: number; maxIter: number },
) => { y: number[][] };
// The library has it, its types do not.
const solveODE = Reflect.get(mathjs, "solveODE") as Solver;

test("against mathjs solveODE as a reference library: dT/dt = -k (T - room), within 0.001 °C", () => {
  fc.assert(
    fc.property(cases, fc.integer({ min: 1, max: 90 }), (one, ahead) => {
      const cooling = learned(
        reading(0, one.first),
        reading(one.between, one.second),
        celsius(one.room),
      );
      const { room, perMinute, temperature } = cooling;
      const { y } = solveODE(
        (_, [t = Number.NaN]) => [-perMinute * (t - room)],
        [0, ahead],
        [temperature],
        { tol: 1e-7, firstStep: 0.01, maxIter: 50_000 },
      );
      const forecast = temperatureAt(cooling, later(cooling.at, ahead * 60));
      expect(Math.abs(forecast - (y.at(-1)?.[0] ?? Number.NaN))).toBeLessThan(0.001);
    }),
    { numRuns: 40 },
  );
});
