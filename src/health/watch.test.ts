import { expect, test } from "vitest";
import { LONGEST, type Seen, watch } from "./watch.ts";

const NOW = 1_800_000_000_000;
const EVERY = 10_000;

/** A look at a heart whose beats come at these ms from now; the clock shows `ahead` ms more than it did. */
async function looking({
  ahead = 0,
  beats = [0],
  every = EVERY,
  left = Number.POSITIVE_INFINITY,
  touches = [],
}: {
  ahead?: number;
  beats?: readonly number[];
  every?: number;
  left?: number;
  touches?: readonly number[];
}) {
  let passed = 0;
  const last = (all: readonly number[]): number => all.filter((at) => at <= passed).at(-1) ?? 0;
  // Beats that are past were written before the clock was set.
  const wall = (at: number): number => NOW + at + (at > 0 ? ahead : 0);
  const look = async (): Promise<Seen> => ({
    text: passed < left ? JSON.stringify({ at: wall(last(beats)), every }) : undefined,
    touched: wall(Math.max(last(beats), last(touches))),
  });
  const now = (): number => NOW + ahead + passed;
  const pause = async (ms: number): Promise<void> => {
    passed += ms;
  };
  const health = await watch({ look, now, pause });
  return { ...health, passed };
}

test("a heart that beats is looked at once", async () => {
  expect(await looking({ beats: [-9000] })).toMatchObject({ well: true, passed: 0 });
});

test.each([
  { what: "set on by an hour", ahead: 3_600_000 },
  { what: "set back by an hour", ahead: -3_600_000 },
  { what: "31 s on, as after a short sleep", ahead: 31_000 },
])("a clock that was $what is no illness, up to the moment before the next beat", async (row) => {
  for (const next of [1, 4000, 9999, 10_000]) {
    const { well, says, passed } = await looking({ ...row, beats: [next - EVERY, next] });
    expect([next, well]).toEqual([next, true]);
    expect(says).toContain("came just now");
    expect(passed).toBeLessThanOrEqual(next + 500);
  }
});

test("a program that stands still is stuck, whatever the clock did", async () => {
  const stuck = await looking({ beats: [-40_000] });
  expect(stuck).toMatchObject({
    well: false,
    says: "Stuck or killed: the last heartbeat was 40 s ago.",
  });
  expect(stuck.passed).toBe(1.2 * EVERY);
  expect(await looking({ beats: [-5000], ahead: -3_600_000 })).toMatchObject({
    well: false,
    says: expect.stringContaining("does not move"),
  });
});

test("one that leaves meanwhile is not running", async () => {
  expect(await looking({ beats: [-40_000], left: 3000 })).toMatchObject({
    well: false,
    says: expect.stringContaining("Not running"),
  });
});

test("a beat that could only touch its file counts as one", async () => {
  expect(await looking({ beats: [-90_000], touches: [7000] })).toMatchObject({ well: true });
});

test("no heart is waited for longer than whoever asked waits", async () => {
  expect((await looking({ beats: [-1e9], every: 1e8 })).passed).toBe(LONGEST);
});
