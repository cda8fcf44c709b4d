import fc from "fast-check";
import { expect, test } from "vitest";
import { createFakeClock } from "../../test/support/fake-clock.ts";
import { type Instant, instant, later } from "../domain/units/quantity.ts";
import { type ClockNote, createSteadyClock } from "../platform/steady-clock.ts";
import { createScheduler, type Scheduler } from "./scheduler.ts";

type Fired = { key: string; late: number };

/** A scheduler on a clock moved by hand; `lateness` is by the steady clock, in ms. */
function setUp(
  options: { early?: number; onDue?: (key: string, scheduler: Scheduler) => void } = {},
) {
  const clock = createFakeClock(undefined, { early: options.early ?? 0 });
  const start = clock.wall();
  const notes: ClockNote[] = [];
  const faults: unknown[] = [];
  const fired: Fired[] = [];
  const dues = new Map<string, Instant>();
  const steady = createSteadyClock(clock, (note) => notes.push(note));
  const scheduler: Scheduler = createScheduler({
    clock: steady,
    timers: clock,
    onDue(key, now) {
      fired.push({ key, late: now - (dues.get(key) ?? now) });
      options.onDue?.(key, scheduler);
    },
    onFault: (error) => faults.push(error),
  });
  const at = (key: string, seconds: number): void => {
    const due = later(start, seconds);
    dues.set(key, due);
    scheduler.schedule(key, due);
  };
  const keys = (): string[] => fired.map(({ key }) => key);
  return { clock, steady, scheduler, start, notes, faults, fired, at, keys };
}

test("keys fire in order, each at its instant, with one timer", () => {
  const { clock, at, fired, scheduler } = setUp();
  at("agitate", 30);
  at("drain", 195);
  at("pour", 10);
  expect(clock.timers()).toBe(1);
  clock.advance(200_000);
  expect(fired).toEqual([
    { key: "pour", late: 0 },
    { key: "agitate", late: 0 },
    { key: "drain", late: 0 },
  ]);
  expect(clock.timers()).toBe(0);
  expect(scheduler.size()).toBe(0);
});

test("a timer that goes off early fires nothing early", () => {
  const { clock, at, fired } = setUp({ early: 1.9 });
  for (let second = 1; second <= 60; second += 1) at(`beat ${second}`, second);
  clock.advance(61_000);
  expect(fired).toHaveLength(60);
  for (const { late } of fired) expect(late).toBeGreaterThanOrEqual(0);
  for (const { late } of fired) expect(late).toBeLessThan(1);
});

test("a key set anew fires at its new instant alone, one taken out never", () => {
  const { clock, at, keys, scheduler } = setUp();
  at("north", 10);
  at("south", 10);
  at("north", 20);
  scheduler.schedule("south", undefined);
  clock.advance(15_000);
  expect(keys()).toEqual([]);
  at("south", 16);
  clock.advance(10_000);
  expect(keys()).toEqual(["south", "north"]);
});

test("a key can be set anew while it fires", () => {
  let beats = 0;
  const { clock, fired, start } = setUp({
    onDue(key, scheduler) {
      beats += 1;
      if (beats < 5) scheduler.schedule(key, later(start, 30 * (beats + 1)));
    },
  });
  clock.advance(0);
  expect(fired).toEqual([]);
  const other = setUp({
    onDue: (key, scheduler) => scheduler.schedule(key, other.start),
  });
  other.at("restless", 1);
  other.clock.advance(1002);
  expect(other.fired.length).toBeGreaterThan(1);
  expect(other.fired.length).toBeLessThan(30);
});

test("one that fails does not keep the others from firing", () => {
  const { clock, at, keys, faults } = setUp({
    onDue(key) {
      if (key === "bad") throw new Error("no");
    },
  });
  at("bad", 1);
  at("good", 1);
  clock.advance(1000);
  expect(keys()).toEqual(["bad", "good"]);
  expect(faults).toEqual([new Error("no")]);
});

test.each([-3600, -30, -1, 1, 30, 3600])("a wall clock set by %d s moves no cue", (step) => {
  const { clock, at, fired, notes, steady } = setUp();
  at("drain", 195);
  clock.advance(60_000);
  clock.set(step * 1000);
  clock.advance(134_999);
  expect(fired).toEqual([]);
  clock.advance(1);
  expect(fired).toEqual([{ key: "drain", late: 0 }]);
  expect(notes).toEqual([{ kind: "set", ms: step * 1000 }]);
  expect(steady.apart()).toBe(step * 1000);
});

test("what came due during a suspend fires once, late, soon after waking", () => {
  const { clock, at, fired, notes } = setUp();
  at("drain", 195);
  at("later", 4000);
  clock.advance(60_250);
  clock.suspend(3_600_000);
  expect(fired).toEqual([]);
  clock.advance(500);
  expect(fired).toHaveLength(1);
  expect(fired[0]?.late).toBeGreaterThan(3_464_000);
  expect(notes).toEqual([{ kind: "suspended", ms: expect.closeTo(3_600_000, -2) }]);
  clock.advance(339_300);
  expect(fired[1]).toEqual({ key: "later", late: expect.closeTo(0, 0) });
});

test("a clock set while the machine sleeps is told from the sleep", () => {
  const { clock, at, keys, notes } = setUp();
  at("drain", 195);
  clock.suspend(60_000);
  clock.set(3_600_000);
  clock.advance(134_000);
  expect(keys()).toEqual([]);
  clock.advance(1500);
  expect(keys()).toEqual(["drain"]);
  expect(notes.map(({ kind }) => kind)).toEqual(["suspended", "set"]);
});

test("a busy process fires what came due meanwhile, in order, late", () => {
  const { clock, at, fired } = setUp();
  at("two", 2);
  at("one", 1);
  clock.stall(5000);
  expect(fired).toEqual([
    { key: "one", late: 4000 },
    { key: "two", late: 3000 },
  ]);
});

test("after stop nothing fires", () => {
  const { clock, at, fired, scheduler } = setUp();
  at("one", 1);
  scheduler.stop();
  at("two", 2);
  clock.advance(5000);
  expect(fired).toEqual([]);
  expect(clock.timers()).toBe(0);
});

test("whatever the clocks do, each key fires once, none early", () => {
  const event = fc.oneof(
    fc.record({ kind: fc.constant("advance" as const), ms: fc.integer({ min: 0, max: 20_000 }) }),
    fc.record({ kind: fc.constant("set" as const), ms: fc.integer({ min: -4e6, max: 4e6 }) }),
    fc.record({ kind: fc.constant("suspend" as const), ms: fc.integer({ min: 0, max: 4e6 }) }),
    fc.record({ kind: fc.constant("stall" as const), ms: fc.integer({ min: 0, max: 3000 }) }),
  );
  const dues = fc.uniqueArray(fc.integer({ min: 0, max: 600 }), { maxLength: 40 });
  const law = fc.property(fc.array(event, { maxLength: 30 }), dues, (events, seconds) => {
    const { clock, at, fired, steady, start } = setUp({ early: 1.5 });
    const real = { ms: 0 };
    for (const second of seconds) at(String(second), second);
    for (const { kind, ms } of events) {
      clock[kind](ms);
      if (kind !== "set") real.ms += ms;
      expect(steady.now() - start).toBeLessThanOrEqual(real.ms + 0.001);
      for (const { key } of fired) expect(Number(key) * 1000).toBeLessThanOrEqual(real.ms + 0.001);
    }
    clock.advance(700_000);
    const order = [...seconds].sort((one, other) => one - other);
    expect(fired.map(({ key }) => Number(key))).toEqual(order);
    for (const { late } of fired) expect(late).toBeGreaterThanOrEqual(0);
  });
  fc.assert(law);
});

test("an instant long past fires at the next turn, not within the call", () => {
  const { clock, scheduler, keys } = setUp();
  scheduler.schedule("past", instant(0));
  expect(keys()).toEqual([]);
  clock.advance(1);
  expect(keys()).toEqual(["past"]);
});
