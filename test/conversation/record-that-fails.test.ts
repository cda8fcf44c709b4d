import { describe, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { createBell } from "../../src/conversation/bell.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import type { Instant } from "../../src/domain/units/quantity.ts";
import type { Files } from "../../src/export/files.ts";
import { noFiles } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { createFakeClock } from "../support/fake-clock.ts";
import { at, evening, runOf, stageOf } from "../support/runs.ts";
import { busyBench } from "../support/understand.ts";

/**
 * Records that no schema would take, in a store that asks none: they stand for whatever a schema
 * overlooks. What must hold even so: cues, first aid, and the owner's way out.
 */
const commands = await loadCommands();

/** Planning the daily message stumbles over it, and nothing else that is asked here. */
const unplannable = (bench: Bench): Bench => ({
  ...bench,
  daily: { ...bench.daily, thermometerOn: "the other day" },
});

/** Nothing can be asked of it. */
const speechless = (bench: Bench): Bench => ({
  ...bench,
  bottles: { b: { ...bench.bottles.b, id: "b", name: undefined } as unknown as Bottle },
});
type Bottle = Bench["bottles"][string];

async function open(bench: Bench, files: Files = noFiles) {
  const memory = emptyMemory<BenchRecord>();
  memory.benches.set("test", { ...newRecord("test", "Europe/Lisbon"), bench });
  const store = createMemoryStore(memory);
  const opened = () => BenchKeeper.open("test", { zone: "UTC" }, store, commands, files);
  const { keeper } = await opened();
  const hear = (text: string, now: Instant = evening): Promise<Reply> =>
    keeper.hear({ text, who: "Ines", standing: "owner" }, now);
  return { keeper, hear, reopened: async () => (await opened()).keeper };
}

const withRun = (): Bench => ({
  ...newRecord("test", "Europe/Lisbon").bench,
  runs: { "run-1": runOf([stageOf()]) },
});

describe("a bench whose daily message cannot be planned", () => {
  test("tells each cue once, and says what went wrong beside it", async () => {
    const { keeper, reopened } = await open(unplannable(withRun()));
    const told: string[] = [];
    const tick = (now: Instant, by = keeper): Promise<void> =>
      by.tick(now, (replies) => void told.push(...replies.map(({ title }) => title)));
    await expect(tick(at(30))).rejects.toThrow(RangeError);
    expect(told).toEqual(["North: pour developer."]);
    await tick(at(31));
    await tick(at(31), await reopened());
    expect(told).toHaveLength(1);
    await expect(keeper.look(at(32), () => undefined)).rejects.toThrow(RangeError);
  });

  test("answers, with a caution", async () => {
    const { hear, keeper } = await open(unplannable(busyBench.bench));
    const { title, cautions } = await hear("note the lid leaks");
    expect(title).toContain("Noted");
    expect(cautions.join()).toContain("keeps me from planning the daily message");
    expect(JSON.stringify(keeper.record)).toContain("the lid leaks");
    expect((await hear("eyes")).facts.first_aid).toBe(true);
    expect((await hear("undo")).title).toContain("Taken back");
  });
});

test("a reminder that cannot be told holds up no cue of a run", async () => {
  const stuck = {
    id: "m1",
    text: "x",
    owner: "Ines",
    rule: { kind: "every" as const, every: 1, unit: "days" as const, from: "some day" },
    due: { at: at(10) },
  };
  // Nothing is held back by a rehearsal.
  const runs = { "run-1": runOf([stageOf()], { rehearsal: { speed: 1 } }) };
  const { keeper } = await open({ ...withRun(), runs, reminders: { m1: stuck } });
  const clock = createFakeClock(evening);
  const told: [string, number][] = [];
  const faults: unknown[] = [];
  const bell = createBell({
    keeper,
    clock,
    tell: (replies, now) =>
      void told.push(...replies.map(({ title }): [string, number] => [title, now])),
    onFault: (error) => void faults.push(error),
  });
  await clock.pass(61_000);
  expect(told.map(([title, now]) => [title, (now - evening) / 1000])).toEqual([
    ["North, rehearsal: pour water as developer.", 30],
    ["North, rehearsal: agitate 30 seconds.", 40],
    ["North, rehearsal: is the developer in?", 50],
  ]);
  // It is tried again now and then, and not without end.
  expect(faults.length).toBeGreaterThan(1);
  expect(faults.length).toBeLessThan(15);
  bell.stop();
});

describe("a bench that can be asked nothing", () => {
  const bench = speechless(busyBench.bench);

  test("fails, and says so, where somebody asks", async () => {
    const { hear } = await open(bench);
    await expect(hear("left")).rejects.toThrow(TypeError);
  });

  test("gives first aid to anybody, and stays as it was", async () => {
    const { keeper, hear } = await open(bench);
    const before = keeper.record.bench;
    expect((await hear("eyes")).say).toMatch(/rinse|water/i);
    const guest = { text: "I can't breathe", who: "Rui", standing: "guest" as const };
    expect((await keeper.hear(guest, evening)).facts.first_aid).toBe(true);
    expect(keeper.record.bench).toBe(before);
  });

  test("is forgotten by its owner, once the words are typed", async () => {
    const { keeper, hear } = await open(bench);
    const asked = await hear("forget the whole bench");
    expect(asked.title).toContain("Type: forget this whole bench for good");
    expect(asked.lines[0]).toContain("1 bottle");
    expect(asked.facts).toMatchObject({ bottles: 1 });
    await hear("forget this whole bench for good");
    expect(keeper.record.bench.bottles).toEqual({});
    expect((await hear("bottles")).kind).toBe("reply");
  });

  test("is forgotten by nobody else", async () => {
    const { keeper } = await open(bench);
    const member = { text: "forget the whole bench", who: "Rui", standing: "member" as const };
    await expect(keeper.hear(member, evening)).rejects.toThrow(TypeError);
    await expect(keeper.hear({ ...member, text: "restore everything" }, evening)).rejects.toThrow(
      TypeError,
    );
  });

  test("is replaced by an archive, after a question that says what goes", async () => {
    const counts = { runs: 2, bottles: 0, sheets: 0, rolls: 0, reminders: 0, pictures: 0 };
    const holds = { bench: "home", made: "2026-11-27T20:00:00Z", counts, missing: [] };
    let opened = "";
    const { hear } = await open(bench, {
      ...noFiles,
      exports: async () => [{ name: "home.zip", bytes: 1000, holds }],
      open: async (file) => {
        opened = file;
        return noFiles.open(file);
      },
    });
    const asked = await hear("restore everything");
    expect(asked.title).toMatch(
      /^Replace this bench by home\.zip\? Here and then gone: .*1 bottle/,
    );
    expect(opened).toBe("");
    await hear("yes");
    expect(opened).toBe("home.zip");
  });

  test("says where no archive is", async () => {
    const { hear } = await open(bench);
    expect((await hear("restore everything")).facts.reason).toBe("no-archive");
  });
});
