import { expect, test } from "vitest";
import { type Celsius, celsius, celsiusDifference, instant, later } from "../units/quantity.ts";
import { reread } from "./reread.ts";
import {
  CHECK_LIMITS,
  correctReading,
  explainThermometer,
  explainTrust,
  isVerified,
  recheckDue,
  type Thermometer,
  takeCheck,
} from "./thermometer.ts";

const DAY = 86_400;
const t0 = instant(1_800_000_000_000);
const days = (n: number) => later(t0, n * DAY);
const check = (day: number, read: number, reference: number) => ({
  at: days(day),
  read: celsius(read),
  reference: celsius(reference),
});
const red: Thermometer = { name: "red", checks: [check(0, 38.4, 38)] };

function corrected(thermometer: Thermometer, read: number, day: number) {
  const reading = correctReading(thermometer, celsius(read), days(day));
  if (!reading.ok) throw new Error(reading.error.kind);
  return reading.value;
}

test("the red one reads 38.4 where the reference reads 38.0: every reading keeps both values", () => {
  const reading = corrected(red, 37.9, 1);
  expect(reading).toMatchObject({ thermometer: "red", read: 37.9, trust: { kind: "verified" } });
  expect(reading.corrected).toBeCloseTo(37.5, 9);
  expect(reading.offset).toBeCloseTo(0.4, 9);
  expect(explainTrust(reading.trust)).toBeUndefined();
});

// Limits are our own figures, no source.
test.each([
  { name: "never checked", checks: [], read: 38, day: 1, kind: "never-checked", offset: 0 },
  {
    name: "on the last day",
    checks: red.checks,
    read: 38,
    day: 180,
    kind: "verified",
    offset: 0.4,
  },
  {
    name: "a day late",
    checks: red.checks,
    read: 38,
    day: 181,
    kind: "check-too-old",
    offset: 0.4,
  },
  { name: "10 °C away", checks: red.checks, read: 28.4, day: 1, kind: "verified", offset: 0.4 },
  { name: "further", checks: red.checks, read: 20, day: 1, kind: "check-too-far", offset: 0 },
  {
    name: "before its check",
    checks: red.checks,
    read: 38,
    day: -1,
    kind: "never-checked",
    offset: 0,
  },
  {
    name: "an ice check proves nothing near 38",
    checks: [check(0, 0.2, 0)],
    read: 38,
    day: 1,
    kind: "check-too-far",
    offset: 0,
  },
  {
    name: "the nearer of two points, though older",
    checks: [check(0, 38.4, 38), check(5, 30.1, 30)],
    read: 37.8,
    day: 6,
    kind: "verified",
    offset: 0.4,
  },
  {
    name: "the newer of two checks at one point, though further",
    checks: [check(0, 38.4, 38), check(5, 37.9, 37.8)],
    read: 38.4,
    day: 6,
    kind: "verified",
    offset: 0.1,
  },
])("$name: $kind", ({ checks, read, day, kind, offset }) => {
  const reading = corrected({ name: "red", checks }, read, day);
  expect(reading.trust.kind).toBe(kind);
  expect(reading.offset).toBeCloseTo(offset, 9);
  expect(reading.read).toBe(read);
  expect(explainTrust(reading.trust) === undefined).toBe(isVerified(reading.trust));
});

test("the reference is never corrected and never due", () => {
  const reference: Thermometer = { name: "glass", checks: [check(0, 39, 38)], isReference: true };
  expect(corrected(reference, 37.8, 900)).toMatchObject({ corrected: 37.8, offset: 0 });
  expect(recheckDue(reference)).toBeUndefined();
});

test("a re-check is due so many days after the newest one", () => {
  expect(recheckDue({ name: "red", checks: [check(9, 38, 38), check(2, 38, 38)] })).toBe(days(189));
  expect(recheckDue(red, { ...CHECK_LIMITS, days: 30 })).toBe(days(30));
  expect(recheckDue({ name: "red", checks: [] })).toBeUndefined();
});

test.each([
  { read: 100.4, reference: 38, says: "I read 100.4 °C" },
  { read: 38, reference: -1, says: "for the reference" },
  { read: 43.1, reference: 38, says: "differ by 5.1 °C" },
  { read: Number.NaN, reference: 38, says: "I need a temperature" },
])("a check of $read against $reference is refused", ({ read, reference, says }) => {
  const taken = takeCheck(t0, read as Celsius, reference as Celsius);
  expect(taken.ok ? "" : explainThermometer(taken.error)).toContain(says);
});

test("a check within 5 °C is taken; a reading that is no number is not", () => {
  expect(takeCheck(t0, celsius(38.4), celsius(38)).ok).toBe(true);
  expect(correctReading(red, Number.NaN as Celsius, t0).ok).toBe(false);
  expect(correctReading(red, celsius(101), t0).ok).toBe(false);
});

test("an offset found later flags the past readings that were out", () => {
  const past = (day: number, read: number, more: object = {}) => ({
    at: days(day),
    thermometer: "red",
    read: celsius(read),
    corrected: celsius(read),
    aim: celsius(37.8),
    run: `run ${day}`,
    ...more,
  });
  const before: Thermometer = { name: "red", checks: [check(10, 38, 38)] };
  const found = reread(
    [
      past(5, 37.8), // covered by the check of day 10
      past(12, 37.8), // 37.4: out
      past(13, 38.2), // 37.8: right after all
      past(14, 37.85), // 37.45: out, but tolerated
      past(15, 37.8, { thermometer: "blue" }),
      past(16, 20, { aim: celsius(20) }), // too far from the checked temperature
      past(17, 30, { aim: undefined }), // no aim: it moved by 0.4
      past(40, 37.8), // after the check
    ].map((one) => (one.run === "run 14" ? { ...one, tolerance: celsiusDifference(0.5) } : one)),
    before,
    check(30, 38.4, 38),
    celsiusDifference(0.15),
  );
  expect(found.map(({ reading }) => reading.run)).toEqual(["run 12", "run 17"]);
  expect(found[0]?.now).toBeCloseTo(37.4, 9);
  expect(found[0]?.changed).toBeCloseTo(-0.4, 9);
  expect(found[0]?.out).toBeCloseTo(-0.4, 9);
  expect(found[1]?.out).toBeCloseTo(-0.4, 9);
});

test("a thermometer found right flags nothing that was right", () => {
  const reading = { at: t0, thermometer: "red", read: celsius(38), corrected: celsius(38) };
  expect(
    reread([reading], { name: "red", checks: [] }, check(1, 38, 38), celsiusDifference(0.1)),
  ).toEqual([]);
});
