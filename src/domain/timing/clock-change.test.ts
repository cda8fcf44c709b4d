import { expect, test } from "vitest";
import { instant } from "../units/quantity.ts";
import { clockChange } from "./clock-change.ts";

const at = (iso: string) => instant(Date.parse(iso));

// Changes by the tz database: Europe on the last Sundays of March and October at 01:00 UTC, Lord
// Howe Island by half an hour.
test.each([
  { zone: "Europe/Lisbon", change: "2026-10-25T01:00:00Z", says: "back at 02:00 to 01:00" },
  { zone: "Europe/Lisbon", change: "2027-03-28T01:00:00Z", says: "forward at 01:00 to 02:00" },
  { zone: "Europe/Paris", change: "2026-10-25T01:00:00Z", says: "back at 03:00 to 02:00" },
  { zone: "America/New_York", change: "2026-11-01T06:00:00Z", says: "back at 02:00 to 01:00" },
  {
    zone: "Australia/Lord_Howe",
    change: "2026-10-03T15:30:00Z",
    says: "forward at 02:00 to 02:30",
  },
])("$zone, $change: the clocks go $says", ({ zone, change, says }) => {
  const moment = Date.parse(change);
  const line = `The clocks go ${says}: times after that are the new time.`;
  expect(clockChange(instant(moment - 300_000), instant(moment + 1), zone)).toBe(line);
  expect(clockChange(instant(moment - 300_000), instant(moment), zone)).toBe(line);
  expect(clockChange(instant(moment - 300_000), instant(moment - 1), zone)).toBeUndefined();
  expect(clockChange(instant(moment), instant(moment + 3_600_000), zone)).toBeUndefined();
});

test("where no clock is changed nothing is said", () => {
  for (const zone of ["UTC", "Asia/Tokyo"]) {
    expect(clockChange(at("2026-01-01T00:00Z"), at("2027-01-01T00:00Z"), zone)).toBeUndefined();
  }
});
