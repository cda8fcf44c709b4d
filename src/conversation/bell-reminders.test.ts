import { expect, test } from "vitest";
import { createFakeClock } from "../../test/support/fake-clock.ts";
import { loadCommands } from "../commands/registry.ts";
import { instant } from "../domain/units/quantity.ts";
import type { Reply } from "../reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../store/memory-store.ts";
import { createBell } from "./bell.ts";
import { BenchKeeper } from "./bench-keeper.ts";
import type { BenchRecord } from "./record.ts";

const commands = await loadCommands();
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** A bench in Lisbon on a Saturday at noon, its bell, and what it has told. */
async function openBell() {
  const clock = createFakeClock(instant(Date.UTC(2026, 10, 28, 12)));
  const memory = emptyMemory<BenchRecord>();
  const store = createMemoryStore(memory);
  const { keeper } = await BenchKeeper.open("test", { zone: "Europe/Lisbon" }, store, commands);
  const told: Reply[] = [];
  let look = (): void => undefined;
  const bell = createBell({
    keeper,
    clock,
    tell: (replies) => void told.push(...replies),
    onFault: (error) => expect.fail(String(error)),
    housekeep: (each) => {
      look = each;
      return () => undefined;
    },
  });
  return { clock, keeper, bell, told, look: () => look() };
}

test("a reminder comes at its time, once, and is not waited for", async () => {
  const { clock, bell, told } = await openBell();
  await bell.hear("remind me in 10 minutes to open the window", "Ines");
  await bell.quiet();
  await clock.pass(9 * MINUTE);
  expect(told).toEqual([]);
  await clock.pass(2 * MINUTE);
  expect(told.map(({ kind, title }) => [kind, title])).toEqual([
    ["reminder", "Reminder: open the window"],
  ]);
  await clock.pass(HOUR);
  expect(told).toHaveLength(1);
  bell.stop();
});

test("a clock that is set is believed by the next look, forwards and backwards", async () => {
  const { clock, bell, told, look } = await openBell();
  await bell.hear("remind me at 20:00 to order fixer", "Ines");
  clock.set(-2 * HOUR);
  look();
  await clock.pass(8 * HOUR + MINUTE);
  // Eight hours on it is 18:01 by the wall clock.
  expect(told).toEqual([]);
  clock.set(3 * HOUR);
  look();
  await clock.pass(1000);
  expect(told.map(({ title }) => title)).toEqual(["Late reminder: order fixer"]);
  bell.stop();
});

test("given and then undone, it does not come back", async () => {
  const { clock, bell, keeper, told } = await openBell();
  await bell.hear("remind me in 10 minutes to open the window", "Ines");
  await bell.hear("snooze window for an hour", "Ines");
  await clock.pass(2 * HOUR);
  expect(told).toHaveLength(1);
  const undone = await bell.hear("undo", "Ines");
  expect(undone.facts.reason).toBe("nothing-to-undo");
  await clock.pass(48 * HOUR);
  expect(told).toHaveLength(1);
  expect(keeper.nextDue()).toBeUndefined();
  bell.stop();
});
