import fc from "fast-check";
import { expect, test } from "vitest";
import { createFakeClock } from "../../../../test/support/fake-clock.ts";
import { createThrottler, waitForSlot } from "./identify-slots.ts";

test("a single shard waits for nobody", () => {
  expect(waitForSlot(0, 1, 1, 123_456)).toBe(0);
});

// One identify in 5 seconds for each concurrency key: Discord's documentation, topic "Sharding"
// (from memory).
test("shards of one key never identify within five seconds of each other, wherever they run", () => {
  const some = fc.record({
    count: fc.integer({ min: 2, max: 40 }),
    concurrency: fc.integer({ min: 1, max: 4 }),
    starts: fc.array(fc.nat(1_000_000), { minLength: 2, maxLength: 12 }),
  });
  const keepsApart = fc.property(some, ({ count, concurrency, starts }) => {
    const going = starts.map((start, index) => {
      const shard = index % count;
      return { shard, at: start + waitForSlot(shard, count, concurrency, start) };
    });
    for (const one of going) {
      for (const other of going) {
        if (one.shard === other.shard) continue;
        if (one.shard % concurrency !== other.shard % concurrency) continue;
        expect(Math.abs(one.at - other.at)).toBeGreaterThanOrEqual(5000);
      }
    }
  });
  fc.assert(keepsApart);
});

test("a shard that logs in again keeps the spacing, and gives up when told to", async () => {
  const clock = createFakeClock();
  const noted: number[] = [];
  const throttler = createThrottler({
    clock,
    count: 1,
    concurrency: 1,
    before: undefined,
    onIdentify: (at) => void noted.push(at),
  });
  const { signal, abort } = controller();
  await throttler.waitForIdentify(0, signal);
  let again = false;
  const second = throttler.waitForIdentify(0, signal).then(() => {
    again = true;
  });
  await clock.pass(5400);
  expect(again).toBe(false);
  await clock.pass(200);
  await second;
  expect(noted).toHaveLength(2);
  const third = throttler.waitForIdentify(0, signal);
  abort();
  await expect(third).rejects.toThrow();
});

test("started again a moment after the last log-in, it waits out the rest of its five seconds", async () => {
  const clock = createFakeClock();
  const before = clock.wall() - 2000;
  const parts = { clock, count: 1, concurrency: 1, before, onIdentify: () => undefined };
  let gone = false;
  const first = createThrottler(parts)
    .waitForIdentify(0, controller().signal)
    .then(() => {
      gone = true;
    });
  await clock.pass(3400);
  expect(gone).toBe(false);
  await clock.pass(200);
  await first;
  // A clock that was set back meanwhile makes nobody wait longer than that.
  const ahead = { ...parts, before: clock.wall() + 3_600_000 };
  const second = createThrottler(ahead).waitForIdentify(0, controller().signal);
  await clock.pass(5600);
  await second;
});

function controller() {
  const made = new AbortController();
  return { signal: made.signal, abort: () => made.abort() };
}
