import fc from "fast-check";
import { expect, test } from "vitest";
import { benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { type Bench, newBench } from "../session/bench.ts";
import { decide, nextDue } from "../session/decide.ts";
import { type Instant, instant, later } from "../units/quantity.ts";
import { zonedAt } from "./calendar.ts";
import { planDaily } from "./daily-message.ts";
import { dueReminders, firstDue } from "./due.ts";
import type { Given } from "./give.ts";
import { type DailyBottle, type Looks, noLooks } from "./looks.ts";
import { moveZone } from "./move-zone.ts";
import type { Reminder, Repeats } from "./reminder.ts";
import { snoozeReminder } from "./snooze.ts";

const ZONE = "Europe/Lisbon";
const local = (text: string, zone = ZONE): Instant =>
  instant(Temporal.PlainDateTime.from(text).toZonedDateTime(zone).epochMilliseconds);
const show = (at: Instant, zone = ZONE): string =>
  zonedAt(at, zone).toPlainDateTime().toString({ smallestUnit: "minute" });

/** Saturday, four weeks before the clocks go forward. */
const start = local("2027-02-27T12:00");
const DAY = 86_400;

const once = (id: string, at: Instant): Reminder => ({
  id,
  text: `thing ${id}`,
  owner: "Ines",
  rule: { kind: "once" },
  due: { at },
});

const every = (id: string, rule: Repeats, bench: Bench): Reminder => ({
  ...once(id, start),
  rule,
  due: firstDue(rule, start, bench),
});

const sunday: Repeats = {
  kind: "every",
  every: 1,
  unit: "weeks",
  from: "2027-02-28",
  weekdays: [7],
  time: { hour: 18, minute: 0 },
};

const benchOf = (...reminders: readonly Reminder[]): Bench => ({
  ...newBench("test", ZONE),
  reminders: Object.fromEntries(reminders.map((one) => [one.id, one])),
});

type Told = { readonly at: Instant; readonly given: Given };

/** Looks at the bench at each of these instants, planning the message after each as the shell does. */
function drive(bench: Bench, moments: readonly Instant[], looks: Looks = noLooks) {
  let current = planDaily(bench, start, looks);
  const told: Told[] = [];
  for (const at of moments) {
    const step = decide(current, at, looks);
    told.push(...(step.given ?? []).map((given) => ({ at, given })));
    current = planDaily(step.bench, at, looks);
  }
  return { bench: current, told };
}

/** Looks exactly when something is due. */
function driveWhenDue(bench: Bench, until: Instant, looks: Looks = noLooks) {
  let current = planDaily(bench, start, looks);
  const told: Told[] = [];
  for (let guard = 0; guard < 10_000; guard += 1) {
    const at = nextDue(current);
    if (at === undefined || at > until) return { bench: current, told };
    const step = decide(current, at, looks);
    told.push(...(step.given ?? []).map((given) => ({ at, given })));
    current = planDaily(step.bench, at, looks);
  }
  throw new Error("the clock does not get on");
}

const idsOf = ({ event }: Given): readonly string[] =>
  event.kind === "reminder" ? [event.reminder.id] : event.reminders.map(({ id }) => id);

const span = 60 * DAY;
const offset = fc.integer({ min: 60, max: span });

test("a reminder is given exactly once, whatever the ticks", () => {
  const law = fc.property(
    fc.array(fc.record({ by: offset, day: fc.boolean() }), { minLength: 1, maxLength: 12 }),
    fc.array(fc.integer({ min: 0, max: span }), { maxLength: 30 }),
    (wanted, ticks) => {
      const bench = benchOf(
        ...wanted.map(({ by, day }, index) => {
          const at = later(start, by);
          const one = once(`m${index}`, at);
          const iso = zonedAt(at, ZONE).toPlainDate().add({ days: 1 }).toString();
          return day ? { ...one, due: { day: iso } } : one;
        }),
      );
      const moments = [...ticks.toSorted((a, b) => a - b), span + 3 * DAY].map((s) =>
        later(start, s),
      );
      const { told } = drive(bench, moments);
      const ids = told.flatMap(({ given }) => idsOf(given)).toSorted();
      expect(ids).toEqual(Object.keys(bench.reminders).toSorted());
      for (const { at, given } of told) expect(given.event.at).toBeLessThanOrEqual(at);
    },
  );
  fc.assert(law);
});

test("looking exactly when something is due tells every time of a repeated one, never early or late", () => {
  const rule = fc.record({
    every: fc.integer({ min: 1, max: 5 }),
    unit: fc.constantFrom("days" as const, "weeks" as const, "months" as const),
    time: fc.record({ hour: fc.nat(23), minute: fc.nat(59) }),
  });
  const law = fc.property(fc.array(rule, { minLength: 1, maxLength: 5 }), (rules) => {
    const empty = benchOf();
    const bench = benchOf(
      ...rules.map((one, index) =>
        every(`m${index}`, { kind: "every", from: "2027-02-20", ...one }, empty),
      ),
    );
    const end = later(start, span);
    const { told } = driveWhenDue(bench, end);
    const expected = dueReminders(bench, start, instant(end + 1));
    const key = (id: string, at: Instant): string => `${id} ${show(at)}`;
    expect(told.map(({ at, given }) => key(idsOf(given)[0] ?? "", at)).toSorted()).toEqual(
      expected.map(({ reminder, at }) => key(reminder.id, at)).toSorted(),
    );
    for (const { given } of told) expect(given.late).toBe(0);
  });
  fc.assert(law);
});

test("a repeated one keeps its local time, and skips what it missed", () => {
  const law = fc.property(
    fc.array(fc.integer({ min: 0, max: span }), { maxLength: 20 }),
    (ticks) => {
      const moments = ticks.toSorted((a, b) => a - b).map((s) => later(start, s));
      const { bench, told } = drive(benchOf(every("m1", sunday, benchOf())), moments);
      let before = 0;
      for (const { at, given } of told) {
        expect(zonedAt(given.event.at, ZONE)).toMatchObject({ dayOfWeek: 7, hour: 18, minute: 0 });
        expect(given.event.at).toBeGreaterThan(before);
        before = at;
      }
      const due = bench.reminders.m1?.due;
      expect(due !== undefined && "at" in due && zonedAt(due.at, ZONE).hour).toBe(18);
    },
  );
  fc.assert(law);
});

test("every Sunday at 18:00 over the change of 28 March 2027", () => {
  const { told } = driveWhenDue(benchOf(every("m1", sunday, benchOf())), local("2027-04-05T00:00"));
  expect(told.map(({ at }) => show(at))).toEqual([
    "2027-02-28T18:00",
    "2027-03-07T18:00",
    "2027-03-14T18:00",
    "2027-03-21T18:00",
    "2027-03-28T18:00",
    "2027-04-04T18:00",
  ]);
});

test("a time that does not exist comes an hour later on that one day", () => {
  const daily: Repeats = {
    kind: "every",
    every: 1,
    unit: "days",
    from: "2027-03-27",
    time: { hour: 1, minute: 30 },
  };
  const bench = benchOf({
    ...once("m1", start),
    rule: daily,
    due: { at: local("2027-03-27T01:30") },
  });
  const { told } = driveWhenDue(bench, local("2027-03-29T12:00"));
  expect(told.map(({ at }) => show(at))).toEqual([
    "2027-03-27T01:30",
    "2027-03-28T02:30",
    "2027-03-29T01:30",
  ]);
});

test("what comes late waits for the end of the quiet hours; what is on time does not", () => {
  const asked = local("2027-02-28T23:00");
  const bench = benchOf(once("m1", asked), once("m2", local("2027-02-28T20:00")));
  const { told } = drive(bench, [asked, local("2027-03-01T07:59"), local("2027-03-01T08:00")]);
  expect(told.map(({ at, given }) => [show(at), idsOf(given)[0]])).toEqual([
    ["2027-02-28T23:00", "m1"],
    ["2027-03-01T08:00", "m2"],
  ]);
  expect(told[1]?.given.late).toBe(12 * 3600);
});

test("nothing is said in a bath of exact time or while pouring, and all of it afterwards", () => {
  const run = runOf([stageOf(), washOf()], { plannedAt: start });
  const bench = { ...benchWith(run), reminders: {} };
  // benchWith's runs stand at half past seven of its own evening.
  const pour = run.stages[0]?.pourAt ?? start;
  const asked = later(pour, 100);
  const with1 = { ...bench, reminders: { m1: once("m1", asked) } };
  expect(decide(with1, later(pour, 120)).given).toBeUndefined();
  const after = decide(with1, later(pour, 300));
  expect(after.given?.map(idsOf)).toEqual([["m1"]]);
  expect(nextDue(with1)).toBeLessThan(asked);
});

test("dark: nothing until the light is on, then once and late", () => {
  const asked = later(start, 3600);
  const dark: Bench = { ...benchOf(once("m1", asked)), mode: "dark" };
  expect(nextDue(dark)).toBeUndefined();
  expect(decide(dark, later(asked, 60)).given).toBeUndefined();
  const lit = decide({ ...dark, mode: "bench" }, later(asked, 600));
  expect(lit.given?.map(({ late }) => late)).toEqual([600]);
  expect(decide(lit.bench, later(asked, 900)).given).toBeUndefined();
});

const bottle = (day: string, change: Partial<DailyBottle> = {}): DailyBottle => {
  const from = Temporal.PlainDate.from("2027-03-01");
  const age = from.until(Temporal.PlainDate.from(day), { largestUnit: "days" }).days;
  return {
    id: "b1",
    name: "Acorn",
    bath: "developer",
    dueOn: "2027-04-12",
    ageShare: age / 42,
    unitsShare: 0,
    ...change,
  };
};
const acorn: Looks = { ...noLooks, bottles: (_, day) => [bottle(day)] };

const lines = ({ event }: Given): readonly string[] =>
  event.kind === "daily" ? event.notices.map(({ text }) => text()) : [];

test("a bottle is told of at 75 %, 90 %, on its last weekend and on the day, at nine", () => {
  const { told } = driveWhenDue(benchOf(), local("2027-06-01T00:00"), acorn);
  // Mixed 1 March, 42 days: 31.5 and 37.8 days later; 12 April is a Monday.
  expect(told.map(({ at, given }) => [show(at), ...lines(given)])).toEqual([
    [
      "2027-04-02T09:00",
      "Acorn (developer) has used three quarters of its time: good until Monday 12 April 2027.",
    ],
    ["2027-04-08T09:00", "Acorn (developer) is near its limit: good until Monday 12 April 2027."],
    [
      "2027-04-10T09:00",
      "Acorn (developer): the last weekend inside its limit, Monday 12 April 2027.",
    ],
    ["2027-04-12T09:00", "Acorn (developer) is good until today, Monday 12 April 2027."],
  ]);
});

test("after a long absence the latest step alone is told, once", () => {
  const { told } = drive(benchOf(), [local("2027-05-01T10:00"), local("2027-05-02T10:00")], acorn);
  expect(told.map(({ given }) => lines(given))).toEqual([
    ["Acorn (developer) is past its limit: it was good until Monday 12 April 2027."],
  ]);
});

test("one message a day, however many bottles and reminders", () => {
  const many: Looks = {
    ...noLooks,
    bottles: (_, day) =>
      Array.from({ length: 5 }, (_unused, index) => bottle(day, { id: `b${index}` })),
  };
  const bench = benchOf({ ...once("m1", start), due: { day: "2027-04-02" } });
  const { told } = driveWhenDue(bench, local("2027-04-03T00:00"), many);
  expect(told).toHaveLength(1);
  expect(told[0]?.given.event).toMatchObject({ kind: "daily", reminders: [{ id: "m1" }] });
});

test("switched off, the bench says nothing by itself; what was asked for still comes", () => {
  const bench = benchOf({ ...once("m1", start), due: { day: "2027-04-02" } });
  const off = { ...bench, daily: { ...bench.daily, on: false } };
  const { told } = driveWhenDue(off, local("2027-06-01T00:00"), acorn);
  expect(told.map(({ given }) => [lines(given), idsOf(given)])).toEqual([[[], ["m1"]]]);
});

test("film that runs low in a bottle, and film that waits, are told once", () => {
  const looks: Looks = {
    bottles: (_, day) => [bottle(day, { dueOn: undefined, unitsShare: 0.8, unitsLeft: 1.63 })],
    rolls: () => [{ id: "r1", name: "Roll 3", since: "2027-02-01" }],
  };
  const { told } = driveWhenDue(benchOf(), local("2027-06-01T00:00"), looks);
  expect(told.map(({ at, given }) => [show(at), ...lines(given)])).toEqual([
    ["2027-02-28T09:00", "Acorn (developer): 1.6 units left by film count."],
    ["2027-03-04T09:00", "Roll 3 has waited since Monday 1 February 2027."],
  ]);
});

test("snoozed, it comes again then and once; a repeated one also at its own time", () => {
  const weekly = every("m1", sunday, benchOf());
  const first = driveWhenDue(benchOf(weekly), local("2027-02-28T18:00"));
  const told = first.bench.reminders.m1;
  if (told === undefined) throw new Error("lost");
  const snoozed = snoozeReminder(first.bench, told, { at: local("2027-03-02T18:00") });
  const { told: later_ } = driveWhenDue(snoozed, local("2027-03-08T00:00"));
  expect(later_.map(({ at }) => show(at))).toEqual(["2027-03-02T18:00", "2027-03-07T18:00"]);
});

test("in another zone a repeated one keeps its time on the wall, a single one its instant", () => {
  const at = local("2027-03-05T20:00");
  const bench = benchOf(every("m1", sunday, benchOf()), once("m2", at));
  const moved = moveZone(bench, "America/New_York");
  const [weekly, single] = [moved.reminders.m1?.due, moved.reminders.m2?.due];
  expect(single).toEqual({ at });
  expect(weekly !== undefined && "at" in weekly && show(weekly.at, "America/New_York")).toBe(
    "2027-02-28T18:00",
  );
});
