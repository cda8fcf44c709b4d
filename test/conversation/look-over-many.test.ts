import { expect, test } from "vitest";
import type { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { createBenches } from "../../src/conversation/benches.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { createFakeClock } from "../support/fake-clock.ts";

const nextTurn = (): Promise<void> => new Promise((soon) => setImmediate(soon));

test("the look of the minute over many benches lets others have their turn in between", async () => {
  let look = (): void => undefined;
  const benches = createBenches({
    clock: createFakeClock(),
    housekeep(start) {
      look = start;
      return () => undefined;
    },
  });
  const looked: number[] = [];
  const BENCHES = 40;
  for (let id = 0; id < BENCHES; id += 1) {
    // A bench of which nothing is due: what is under test is who has a turn.
    const keeper = {
      record: { bench: {} },
      nextDue: () => undefined,
      nextCue: () => undefined,
      look: async () => void looked.push(id),
    };
    benches.join(String(id), {
      keeper: keeper as unknown as BenchKeeper,
      tell: () => undefined,
      onFault: (error) => {
        throw error;
      },
    });
  }
  look();
  let turns = 0;
  for (; looked.length < BENCHES && turns < 1000; turns += 1) {
    const before = looked.length;
    await nextTurn();
    expect(looked.length - before).toBeLessThanOrEqual(2);
  }
  expect(looked).toEqual(Array.from({ length: BENCHES }, (_, id) => id));
  expect(turns).toBeGreaterThanOrEqual(BENCHES / 2);
  // And again, in the next minute.
  look();
  await nextTurn();
  expect(looked.length).toBeGreaterThan(BENCHES);
  benches.stop();
});

test("reminders of many benches at one instant take turns, and a cue due with them goes first", async () => {
  const clock = createFakeClock();
  const benches = createBenches({ clock });
  const due = instant(clock.wall() + 1000);
  const told: string[] = [];
  const BENCHES = 40;
  for (let id = 0; id <= BENCHES; id += 1) {
    const isCue = id === BENCHES;
    let done = false;
    const keeper = {
      record: { bench: {} },
      nextDue: () => (done ? undefined : due),
      nextCue: () => (isCue && !done ? due : undefined),
      tick: async () => {
        done = true;
        told.push(isCue ? "cue" : "reminder");
      },
    };
    benches.join(String(id), {
      keeper: keeper as unknown as BenchKeeper,
      tell: () => undefined,
      onFault: (error) => {
        throw error;
      },
    });
  }
  clock.advance(1001);
  await Promise.resolve();
  expect(told).toContain("cue");
  expect(told.length).toBeLessThanOrEqual(3);
  for (let turns = 0; told.length <= BENCHES && turns < 1000; turns += 1) {
    const before = told.length;
    await nextTurn();
    expect(told.length - before).toBeLessThanOrEqual(2);
  }
  expect(told.filter((one) => one === "reminder")).toHaveLength(BENCHES);
  benches.stop();
});
