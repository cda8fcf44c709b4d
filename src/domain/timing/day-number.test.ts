import fc from "fast-check";
import { expect, test } from "vitest";
import { dayNumber, isoOfDay } from "./day-number.ts";

test.each([
  ["1970-01-01", 0],
  ["1969-12-31", -1],
  ["2000-02-29", 11_016],
  ["2000-03-01", 11_017],
  ["2100-02-28", 47_540],
  ["2100-03-01", 47_541],
])("%s is day %i", (iso, day) => {
  expect(dayNumber(iso)).toBe(day);
  expect(isoOfDay(day)).toBe(iso);
});

test("against Temporal as a reference, from 1600 to 2400", () => {
  const epoch = Temporal.PlainDate.from("1970-01-01");
  const law = fc.property(fc.integer({ min: -135_000, max: 157_000 }), (day) => {
    const iso = epoch.add({ days: day }).toString();
    expect(dayNumber(iso)).toBe(day);
    expect(isoOfDay(day)).toBe(iso);
  });
  fc.assert(law, { numRuns: 3000 });
});

test("what is no date is our bug", () => {
  expect(() => dayNumber("yesterday")).toThrow(RangeError);
});

test("a day beyond the years of four digits is told as the nearest, so that dates compare as text", () => {
  expect(isoOfDay(dayNumber("9999-12-31") + 1)).toBe("9999-12-31");
  expect(isoOfDay(1e12)).toBe("9999-12-31");
  expect(isoOfDay(-1e12)).toBe("0000-01-01");
});
