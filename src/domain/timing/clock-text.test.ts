import { expect, test } from "vitest";
import { instant } from "../units/quantity.ts";
import {
  clockMinute,
  clockTime,
  dateOf,
  daysBetween,
  isoInstant,
  showAge,
  showDate,
} from "./clock-text.ts";

const moment = (iso: string) => instant(Date.parse(iso));

test.each([
  { iso: "2026-11-28T19:31:05Z", zone: "Europe/Lisbon", time: "19:31:05", date: "2026-11-28" },
  { iso: "2026-11-28T19:31:05Z", zone: "America/New_York", time: "14:31:05", date: "2026-11-28" },
  { iso: "2026-11-28T19:31:05Z", zone: "Pacific/Auckland", time: "08:31:05", date: "2026-11-29" },
  { iso: "2026-11-28T19:31:05.999Z", zone: "UTC", time: "19:31:05", date: "2026-11-28" },
  { iso: "2026-07-01T00:00:00Z", zone: "Europe/Lisbon", time: "01:00:00", date: "2026-07-01" },
  // The hour that the clocks of Lisbon show twice: time zone database, 25 October 2026.
  { iso: "2026-10-25T00:30:00Z", zone: "Europe/Lisbon", time: "01:30:00", date: "2026-10-25" },
  { iso: "2026-10-25T01:30:00Z", zone: "Europe/Lisbon", time: "01:30:00", date: "2026-10-25" },
  { iso: "1969-12-31T23:59:59.500Z", zone: "UTC", time: "23:59:59", date: "1969-12-31" },
])("$iso is $time on $date in $zone", ({ iso, zone, time, date }) => {
  expect(clockTime(moment(iso), zone)).toBe(time);
  expect(clockMinute(moment(iso), zone)).toBe(time.slice(0, 5));
  expect(dateOf(moment(iso), zone)).toBe(date);
});

test("a second that is not over is not shown", () => {
  const almost = instant(Date.parse("2026-11-28T19:31:05Z") - 0.5);
  expect(clockTime(almost, "UTC")).toBe("19:31:04");
});

test.each([
  ["2026-11-24", "24 November 2026"],
  ["2026-01-01", "1 January 2026"],
  ["2024-02-29", "29 February 2024"],
])("%s is written %s", (iso, words) => {
  expect(showDate(iso)).toBe(words);
});

test.each([
  ["2026-11-27", "2026-11-28", 1],
  ["2026-11-28", "2026-11-27", -1],
  ["2024-02-28", "2024-03-01", 2],
  ["2025-11-28", "2026-11-28", 365],
  // The night the clocks change is still one day.
  ["2026-10-24", "2026-10-25", 1],
])("from %s to %s are %d days", (from, to, days) => {
  expect(daysBetween(from, to)).toBe(days);
});

test("an age of a day has its own word", () => {
  expect(showAge(1)).toBe("1 day old");
  expect(showAge(12)).toBe("12 days old");
  expect(showAge(0)).toContain("today");
});

test("an instant is written in ISO 8601, parts of a millisecond left out", () => {
  expect(isoInstant(instant(1_000.7))).toBe("1970-01-01T00:00:01Z");
});
