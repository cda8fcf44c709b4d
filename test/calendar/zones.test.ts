import { DateTime } from "luxon";
import { describe, expect, test } from "vitest";
import {
  dayNumber,
  dayOfNumber,
  instantOf,
  showTime,
  zonedAt,
} from "../../src/domain/reminders/calendar.ts";
import { messageAt, newDaily } from "../../src/domain/reminders/daily.ts";
import { nextInstant } from "../../src/domain/reminders/occurrence.ts";
import type { Repeats } from "../../src/domain/reminders/reminder.ts";
import { daysBetween } from "../../src/domain/timing/clock-text.ts";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { readWhen } from "../../src/language/readers/date-future.ts";
import type { When } from "../../src/language/readers/when.ts";
import { toWords } from "../../src/language/words.ts";

/**
 * One of each kind: changes at 01:00 UTC and at 02:00 local, half an hour, rules given up (2022),
 * changes for a month of fasting, changes at local midnight, given up by decree (2021).
 */
const zones = [
  "Europe/Lisbon",
  "America/New_York",
  "Australia/Lord_Howe",
  "Asia/Tehran",
  "Africa/Casablanca",
  "Africa/Cairo",
  "Pacific/Apia",
];

const START = Date.UTC(2020, 0, 1);
const END = Date.UTC(2031, 0, 1);
const HOUR = 3_600_000;

/** Every change of the offset from 2020 to 2030. */
function transitions(zone: string): readonly Instant[] {
  const found: Instant[] = [];
  let at = Temporal.Instant.fromEpochMilliseconds(START).toZonedDateTimeISO(zone);
  for (;;) {
    const next = at.getTimeZoneTransition("next");
    if (next === null || next.epochMilliseconds >= END) return found;
    found.push(instant(next.epochMilliseconds));
    at = next;
  }
}

const luxonAt = (at: number, zone: string): DateTime => DateTime.fromMillis(at, { zone });

/** What the reader makes of a phrase at a moment. */
function heard(phrase: string, now: Instant, zone: string): When | undefined {
  const { words } = toWords(phrase);
  const names = { bottle: new Map(), sheet: new Map(), tank: new Map() };
  const whole = readWhen(words, 0, { now, zone, names }).find(({ next }) => next === words.length);
  return whole?.value as When | undefined;
}

describe.each(zones)("%s", (zone) => {
  const changes = transitions(zone);

  test("there are clock changes to look at", () => {
    expect(changes.length).toBeGreaterThan(0);
  });

  test("both libraries know the same offsets around every change", () => {
    for (const change of changes) {
      for (const off of [-1, 0, 1, HOUR, -HOUR]) {
        const at = instant(change + off);
        const ours = zonedAt(at, zone).offsetNanoseconds / 60e9;
        expect(`${at} ${ours}`).toBe(`${at} ${luxonAt(at, zone).offset}`);
      }
    }
  });

  test("local times of the days around every change are the same instants", () => {
    for (const change of changes) {
      const noon = zonedAt(change, zone).toPlainDate();
      for (const by of [-1, 0, 1]) {
        const day = noon.add({ days: by });
        for (let minutes = 0; minutes < 1440; minutes += 15) {
          const time = { hour: Math.floor(minutes / 60), minute: minutes % 60 };
          const { at, shift } = instantOf(day, time, zone);
          const other = DateTime.fromObject(
            { year: day.year, month: day.month, day: day.day, ...time },
            { zone },
          );
          if (shift === "twice") {
            // The other library does not promise which of the two it takes.
            const both = [at, at + changedBy(change, zone)];
            expect(both).toContain(other.toMillis());
            expect(at).toBe(Math.min(...both));
            continue;
          }
          expect(`${day} ${showTime(time)} ${at}`).toBe(
            `${day} ${showTime(time)} ${other.toMillis()}`,
          );
          expect(shift === "gap").toBe(other.hour !== time.hour || other.minute !== time.minute);
        }
      }
    }
  });

  test("every Sunday at 18:00 stays 18:00 and comes every Sunday", () => {
    const rule: Repeats = {
      kind: "every",
      every: 1,
      unit: "weeks",
      from: "2020-01-01",
      weekdays: [7],
      time: { hour: 18, minute: 0 },
    };
    let other = DateTime.fromObject({ year: 2020, month: 1, day: 5, hour: 18 }, { zone });
    let after = instant(START);
    for (let count = 0; count < 570; count += 1) {
      const found = nextInstant(rule, after, zone);
      expect(`${count} ${found?.at}`).toBe(`${count} ${other.toMillis()}`);
      expect(showTime(zonedAt(instant(found?.at ?? 0), zone))).toBe("18:00");
      after = instant(found?.at ?? END);
      other = other.plus({ weeks: 1 });
    }
  });

  test("in 24 hours is 24 hours, tomorrow at this time is tomorrow at this time", () => {
    for (const change of changes) {
      for (const off of [-20, -12, -5, 2]) {
        const start = zonedAt(instant(change + off * HOUR), zone).with({ minute: 0, second: 0 });
        const now = instant(start.epochMilliseconds);
        const hours = heard("in 24 hours", now, zone);
        expect(hours).toEqual({
          kind: "at",
          at: luxonAt(now, zone).plus({ hours: 24 }).toMillis(),
        });
        const time = showTime(start);
        const tomorrow = heard(`tomorrow at ${time}`, now, zone);
        const other = luxonAt(now, zone).plus({ days: 1 });
        // A local time that comes twice may be its second one there.
        if (start.hour >= 10 && start.hour <= 12) continue; // "at 10:00" may be the evening
        const at = tomorrow?.kind === "at" ? tomorrow.at : 0;
        expect([0, HOUR, HOUR / 2]).toContain(Math.abs(at - other.toMillis()));
        expect(showTime(zonedAt(instant(at), zone))).toBe(other.toFormat("HH:mm"));
        expect(zonedAt(instant(at), zone).toPlainDate().toString()).toBe(other.toISODate());
      }
    }
  });

  test("ages and due dates are counted in calendar days, 23 and 25 hour days alike", () => {
    for (const change of changes) {
      const day = zonedAt(change, zone).toPlainDate();
      for (const keeps of [1, 2, 30, 42, 180, 365]) {
        const mixed = day.subtract({ days: Math.floor(keeps / 2) });
        const from = DateTime.fromISO(mixed.toString(), { zone });
        const due = mixed.add({ days: keeps });
        expect(due.toString()).toBe(from.plus({ days: keeps }).toISODate());
        const until = DateTime.fromISO(due.toString(), { zone });
        const age = Math.round(until.diff(from, "days").days);
        expect(daysBetween(mixed.toString(), due.toString())).toBe(age);
        expect(dayNumber(due) - dayNumber(mixed)).toBe(keeps);
        expect(dayOfNumber(dayNumber(due)).equals(due)).toBe(true);
        expect(heard(`in ${keeps} days`, change, zone)).toEqual({
          kind: "day",
          day: luxonAt(change, zone).plus({ days: keeps }).toISODate(),
        });
      }
      const bench = { zone, daily: { ...newDaily(), hour: 9 } };
      for (const by of [-1, 0, 1]) {
        const one = day.add({ days: by });
        const other = DateTime.fromISO(`${one}T09:00`, { zone });
        expect(messageAt(bench, one)).toBe(other.toMillis());
      }
    }
  });
});

/** By how much the clocks go back, ms. */
function changedBy(change: Instant, zone: string): number {
  const [before, after] = [instant(change - 1), change].map(
    (at) => zonedAt(at, zone).offsetNanoseconds / 1e6,
  );
  return (before ?? 0) - (after ?? 0);
}
