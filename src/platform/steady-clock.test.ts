import { expect, test } from "vitest";
import { createFakeClock } from "../../test/support/fake-clock.ts";
import { type ClockNote, createSteadyClock } from "./steady-clock.ts";

function setUp() {
  const clock = createFakeClock();
  const notes: ClockNote[] = [];
  const steady = createSteadyClock(clock, (note) => notes.push(note));
  return { clock, notes, steady, start: clock.wall() };
}

test("time goes by as it does", () => {
  const { clock, steady, start, notes } = setUp();
  clock.advance(1234.5);
  expect(steady.now() - start).toBe(1234.5);
  expect(steady.apart()).toBe(0);
  expect(notes).toEqual([]);
});

test("a set clock is noticed once and left aside until we follow it", () => {
  const { clock, steady, start, notes } = setUp();
  clock.set(-3_600_000);
  clock.advance(10_000);
  expect(steady.now() - start).toBe(10_000);
  expect(steady.apart()).toBe(-3_600_000);
  expect(notes).toEqual([{ kind: "set", ms: -3_600_000 }]);
  steady.follow();
  expect(steady.now()).toBe(clock.wall());
  expect(steady.apart()).toBe(0);
  expect(notes).toHaveLength(1);
});

test("sleep counts, a little less than measured, never more", () => {
  const { clock, steady, start, notes } = setUp();
  for (let night = 1; night <= 3; night += 1) {
    clock.advance(3333);
    clock.suspend(8 * 3_600_000 + 7);
    const behind = night * (3333 + 8 * 3_600_000 + 7) - (steady.now() - start);
    expect(behind).toBeGreaterThan(0);
    expect(behind).toBeLessThan(night * 31);
  }
  expect(notes.map(({ kind }) => kind)).toEqual(["suspended", "suspended", "suspended"]);
});

test("the coarseness of the uptime adds up to nothing", () => {
  const { clock, steady, start, notes } = setUp();
  for (let turn = 0; turn < 10_000; turn += 1) {
    clock.advance(7.3);
    steady.now();
  }
  expect(steady.now() - start).toBeCloseTo(73_000, 3);
  expect(notes).toEqual([]);
});
