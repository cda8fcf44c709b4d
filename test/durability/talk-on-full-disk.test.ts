import { expect, test, vi } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { createBell } from "../../src/conversation/bell.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { StoreError } from "../../src/store/store-error.ts";
import { createFakeClock } from "../support/fake-clock.ts";
import { type Living, live } from "../support/mishaps.ts";

const commands = await loadCommands();

/** A bench with a run under way on a disk that has just filled up. */
async function filled(): Promise<Living> {
  const living = await live("2026-11-28T19:30:00Z");
  await living.say("start developer for 4 minutes tank north");
  await living.clock.pass(31_000);
  await living.say("in");
  await living.clock.pass(5000);
  living.full(true);
  return living;
}

// First lines of data/emergencies.json, where their sources stand.
test.each([
  { said: "eyes", says: "Rinse eyes" },
  { said: "i have a burn", says: "Cool running water" },
  { said: "he swallowed fixer", says: "poison centre" },
  { said: "i am hurt", says: "Emergency number first" },
])("$said is answered though the disk is full", async ({ said, says }) => {
  const { say, keeper } = await filled();
  const { bench } = keeper.record;
  const reply = await say(said);
  expect(reply.title).toContain(says);
  expect(reply.facts.first_aid).toBe(true);
  expect((await say("again")).title).toContain(says);
  expect(keeper.record.bench).toBe(bench);
});

test("what only asks is answered on a full disk and says that it was not kept; what changes is refused", async () => {
  const { say, keeper, stored, full } = await filled();
  const before = keeper.record;
  for (const said of ["left", "help", "again", "summary", "why", "bottles", "no such thing"]) {
    const reply = await say(said);
    expect(reply.cautions.at(-1), said).toBe("The disk is full: I answer, and keep nothing.");
    expect(keeper.record.bench).toBe(before.bench);
    expect(keeper.record.undo).toBe(before.undo);
  }
  for (const said of ["note the lid leaks", "temperature 37.6", "undo", "use US ounces"]) {
    await expect(say(said), said).rejects.toThrow("disk is full");
    expect(keeper.record.bench, said).toBe(before.bench);
    expect(keeper.record.undo, said).toBe(before.undo);
  }
  const { threads: _, ...kept } = await stored();
  const { threads: __, ...held } = keeper.record;
  expect(held).toEqual(kept);
  full(false);
  expect((await say("note the lid leaks")).cautions).toEqual([]);
  expect(await stored()).toEqual(keeper.record);
});

test("a question asked on a full disk can be answered once there is room again", async () => {
  const { say, full, keeper } = await filled();
  const asked = await say("bottle fixer mixed today");
  expect(asked.kind).toBe("question");
  await expect(say("1 litre")).rejects.toThrow("disk is full");
  full(false);
  const { title } = await say("1 litre");
  expect(title).toContain("fixer");
  expect(Object.keys(keeper.record.bench.bottles)).toHaveLength(1);
});

test("where another program may have changed the bench, nothing is answered from memory", async () => {
  const kept = createMemoryStore(emptyMemory<BenchRecord>());
  const { keeper } = await BenchKeeper.open("t", { zone: "UTC" }, kept, commands);
  kept.commit = () => Promise.reject(new StoreError("in-use", "Another program has this folder."));
  const now = instant(Date.UTC(2026, 10, 28));
  await expect(keeper.hear({ text: "bottles", who: "Ines" }, now)).rejects.toThrow("Another");
  expect((await keeper.hear({ text: "eyes", who: "Ines" }, now)).title).toContain("Rinse");
});

test("first aid needs neither a bench that can be read nor one that is free", async () => {
  const kept = createMemoryStore(emptyMemory<BenchRecord>());
  const { keeper } = await BenchKeeper.open("t", { zone: "UTC" }, kept, commands);
  const broken = (): never => {
    throw new TypeError("a record that makes everything throw");
  };
  vi.spyOn(keeper, "record", "get").mockImplementation(broken);
  const clock = createFakeClock();
  const bell = createBell({ keeper, clock, tell: () => undefined, onFault: () => undefined });
  for (const name of ["nextDue", "nextCue", "tick"] as const) {
    vi.spyOn(keeper, name).mockImplementation(broken);
  }
  expect((await bell.hear("eyes", "Ines")).title).toContain("Rinse");
  // A commit that never ends holds up what comes after it, and never this.
  kept.commit = () => new Promise(() => undefined);
  void bell.hear("note the lid leaks", "Ines").catch(() => undefined);
  expect((await keeper.hear({ text: "burn", who: "Ines" }, bell.now())).title).toContain("Cool");
});
