import fc from "fast-check";
import { expect, test } from "vitest";
import { choicesOf, quietBench, readAll, readWhole } from "../../../test/support/reading.ts";
import { instant } from "../../domain/units/quantity.ts";
import { readPastDate } from "./date-past.ts";
import { showDate } from "./date-words.ts";

/** Saturday 28 November 2026 in New York. */
test.each([
  ["today", "2026-11-28"],
  ["just now", "2026-11-28"],
  ["this morning", "2026-11-28"],
  ["yesterday", "2026-11-27"],
  ["last night", "2026-11-27"],
  ["the day before yesterday", "2026-11-26"],
  ["tomorrow", "2026-11-29"],
  ["3 days ago", "2026-11-25"],
  ["a week ago", "2026-11-21"],
  ["two weeks ago", "2026-11-14"],
  ["a fortnight ago", "2026-11-14"],
  ["six months ago", "2026-05-28"],
  ["a year ago", "2025-11-28"],
  ["last tuesday", "2026-11-24"],
  ["tuesday", "2026-11-24"],
  ["on Monday", "2026-11-23"],
  ["saturday", "2026-11-21"],
  ["last saturday", "2026-11-21"],
  ["tuesday last week", "2026-11-17"],
  ["last week on tuesday", "2026-11-17"],
  ["2026-11-28", "2026-11-28"],
  ["2026-11-02T12:30", "2026-11-02"],
  ["2026/11/02", "2026-11-02"],
  ["3 november", "2026-11-03"],
  ["november 3rd", "2026-11-03"],
  ["Nov. 3", "2026-11-03"],
  ["the 3rd of november", "2026-11-03"],
  ["the third of november", "2026-11-03"],
  ["the twenty-first of november", "2026-11-21"],
  ["3 nov 2026", "2026-11-03"],
  ["November 3, 2025", "2025-11-03"],
  ["saturday 21 november", "2026-11-21"],
  ["saturday the 21st", "2026-11-21"],
  ["3 december", "2025-12-03"],
  ["29 february", "2024-02-29"],
  ["the 3rd", "2026-11-03"],
  ["on the 30th", "2026-10-30"],
  ["the 31st", "2026-10-31"],
  ["28/11", "2026-11-28"],
  ["11/28", "2026-11-28"],
  ["5/5/26", "2026-05-05"],
  ["13.11.2026", "2026-11-13"],
  ["28-nov-2026", "2026-11-28"],
  ["2026 november 3", "2026-11-03"],
  ["3 november 2030", "2030-11-03"],
])("%j is %s", (phrase, date) => {
  expect(readWhole(readPastDate, phrase)).toBe(date);
});

test("the day is the bench's, not the machine's", () => {
  expect(readWhole(readPastDate, "today", { zone: "Europe/Berlin" })).toBe("2026-11-29");
});

test("figures that read two ways are asked, each reading in full", () => {
  expect(readWhole(readPastDate, "12/11")).toMatchObject({ unsettled: "date", heard: "12/11" });
  expect(choicesOf(readWhole(readPastDate, "12/11"))).toEqual({
    "12 November 2026": "2026-11-12",
    "11 December 2025": "2025-12-11",
  });
  expect(choicesOf(readWhole(readPastDate, "12/11/26"))).toEqual({
    "12 November 2026": "2026-11-12",
    "11 December 2026": "2026-12-11",
  });
  expect(choicesOf(readWhole(readPastDate, "1.11.26"))).toEqual({
    "1 November 2026": "2026-11-01",
    "11 January 2026": "2026-01-11",
  });
});

test.each([
  "31 february",
  "2026-13-45",
  "13/13",
  "the 99th",
  "1.5 weeks ago",
  "-3 days ago",
  "1e309 days ago",
  "99999999 years ago",
])("%j is refused", (phrase) => {
  expect(readWhole(readPastDate, phrase)).toHaveProperty("unreadable");
});

test.each(["", "ago", "3", "november", "bottle", "500 ml", "constructor"])(
  "%j is no date",
  (phrase) => {
    expect(readWhole(readPastDate, phrase)).toBe("nothing");
  },
);

test("a year that may be something else can be left out", () => {
  expect(readAll(readPastDate, "3 november 2025")).toEqual([
    ["2025-11-03", 3],
    ["2026-11-03", 2],
  ]);
});

const someDay = fc
  .tuple(
    fc.integer({ min: 1990, max: 2040 }),
    fc.integer({ min: 1, max: 12 }),
    fc.integer({ min: 1, max: 31 }),
  )
  .map(([year, month, day]) => Temporal.PlainDate.from({ year, month, day }));

test("a date in full reads back, as ISO and in words", () => {
  fc.assert(
    fc.property(someDay, (day) => {
      expect(readWhole(readPastDate, day.toString())).toBe(day.toString());
      expect(readWhole(readPastDate, showDate(day))).toBe(day.toString());
    }),
  );
});

test("a weekday always lies one to seven days back, in every zone at any moment", () => {
  const zones = fc.constantFrom("UTC", "Asia/Kolkata", "Pacific/Apia", "America/St_Johns");
  const names = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
  fc.assert(
    fc.property(zones, fc.integer({ min: 0, max: 4e12 }), fc.nat(6), (zone, now, index) => {
      const bench = { ...quietBench, zone, now: instant(now) };
      const today = Temporal.PlainDate.from(String(readWhole(readPastDate, "today", bench)));
      const read = Temporal.PlainDate.from(
        String(readWhole(readPastDate, `last ${names[index]}`, bench)),
      );
      const back = read.until(today).days;
      expect(read.dayOfWeek).toBe(index + 1);
      expect(back).toBeGreaterThanOrEqual(1);
      expect(back).toBeLessThanOrEqual(7);
    }),
  );
});
