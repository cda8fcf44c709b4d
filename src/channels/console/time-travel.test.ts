import { expect, test } from "vitest";
import { isoInstant } from "../../domain/timing/clock-text.ts";
import { instant } from "../../domain/units/quantity.ts";
import { readMove } from "./time-travel.ts";

const now = instant(Date.UTC(2027, 2, 27, 12));
const move = (line: string, zone = "Europe/Lisbon") => {
  const read = readMove(line, now, zone);
  return "to" in read ? isoInstant(read.to) : read.wrong;
};

test.each([
  { line: "@+3m15s", to: "2027-03-27T12:03:15Z" },
  { line: "@ +1d2h3m4.5s", to: "2027-03-28T14:03:04.5Z" },
  { line: "@+0s", to: "2027-03-27T12:00:00Z" },
  { line: "@2027-03-27T13:00", to: "2027-03-27T13:00:00Z" },
  { line: "@2027-03-28T09:00", to: "2027-03-28T08:00:00Z" },
  // Left out by the change to summer time: as many minutes after it.
  { line: "@2027-03-28T01:30", to: "2027-03-28T01:30:00Z" },
  // Comes twice in autumn: the first.
  { line: "@2027-10-31T01:30", to: "2027-10-31T00:30:00Z" },
  { line: "@2027-03-28T09:00Z", to: "2027-03-28T09:00:00Z" },
  { line: "@2027-03-28T09:00+05:30", to: "2027-03-28T03:30:00Z" },
  { line: "@2027-03-28T09:00[Asia/Tokyo]", to: "2027-03-28T00:00:00Z" },
  { line: "@2027-03-28", to: "2027-03-27T23:00:00Z", zone: "Europe/Paris" },
])("$line moves the clock to $to", ({ line, to, zone }) => {
  expect(move(line, zone)).toBe(to);
});

test.each([
  { line: "@", says: "is no instant" },
  { line: "@+", says: "does not say how far" },
  { line: "@+3", says: "does not say how far" },
  { line: "@+3m 15s", says: "does not say how far" },
  { line: "@+-3m", says: "does not say how far" },
  { line: "@-3m", says: "is no instant" },
  { line: "@+1e9s", says: "does not say how far" },
  { line: "@+401d", says: "more than 400 days" },
  { line: `@+${"9".repeat(400)}d`, says: "more than 400 days" },
  { line: "@2027-02-30T09:00", says: "is no instant" },
  { line: "@2027-03-28T25:00", says: "is no instant" },
  { line: "@tomorrow", says: "is no instant" },
  { line: "@2027-03-28T09:00[Mars/Base]", says: "is no instant" },
  { line: "@9999-01-01T00:00Z", says: "is no instant" },
  { line: "@2027-03-27T11:59:59Z", says: "lies in the past" },
  { line: "@2027-03-27T13:00+02:00", says: "lies in the past" },
])("$line is refused: it $says", ({ line, says }) => {
  expect(move(line)).toContain(says);
});

test("a long line is not said back whole", () => {
  expect(move(`@${"x".repeat(5000)}`).length).toBeLessThan(200);
});

test("the clock stops at the end of its last year", () => {
  const late = instant(Date.UTC(2999, 11, 30));
  expect(readMove("@+2d", late, "UTC")).toHaveProperty("wrong");
});
