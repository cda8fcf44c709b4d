import { expect, test } from "vitest";
import { z } from "zod";
import { MemoryDisk } from "../../test/support/memory-disk.ts";
import {
  isWhole,
  nextTally,
  openTallies,
  type Tally,
  tallySchema,
} from "../../test/support/tally.ts";
import { openFileStore } from "./file-store.ts";
import { createMemoryStore, emptyMemory } from "./memory-store.ts";
import type { Store } from "./store.ts";

const noLock = async () => ({ isLost: () => false, release: async () => undefined });

async function commitMany(store: Store<Tally>, id: string, times: number): Promise<Tally> {
  let tally = (await store.load(id)).value;
  let last = nextTally(tally);
  for (let time = 0; time < times; time += 1) {
    last = nextTally(tally);
    await store.commit(id, tally, last);
    tally = last;
  }
  return last;
}

const disk = new MemoryDisk();
const memory = emptyMemory<Tally>();

test.each([
  { name: "file store", open: async () => openTallies(disk) },
  { name: "memory store", open: async () => createMemoryStore<Tally>(memory) },
])("$name keeps benches apart and over a restart", async ({ open }) => {
  const store = await open();
  expect(await store.load("home")).toEqual({ value: undefined, notices: [] });
  expect(await store.list()).toEqual([]);
  await commitMany(store, "home", 3);
  await commitMany(store, "Home", 5);
  await store.archive("home", "run 1", { rolls: ["A"] });
  await store.close();

  const again = await open();
  expect(await again.list()).toEqual(["Home", "home"]);
  expect((await again.load("home")).value).toMatchObject({ count: 3 });
  expect((await again.load("Home")).value).toMatchObject({ count: 5 });
  expect(await again.recall("home", "run 1")).toEqual({ rolls: ["A"] });
  expect(await again.recall("home", "run 2")).toBe(undefined);
  expect(await again.recall("Home", "run 1")).toBe(undefined);
});

test.each([
  { name: "file store", open: async () => openTallies(new MemoryDisk()) },
  { name: "memory store", open: async () => createMemoryStore<Tally>() },
])("$name refuses a commit that is not built on the latest value", async ({ open }) => {
  const store = await open();
  await store.load("home");
  const one = nextTally(undefined);
  await store.commit("home", undefined, one);
  await store.commit("home", one, nextTally(one));
  await expect(store.commit("home", one, nextTally(one))).rejects.toMatchObject({
    kind: "conflict",
  });
  await expect(store.commit("home", undefined, one)).rejects.toMatchObject({ kind: "conflict" });
});

test("two generations are kept, and a bench can be read at any length", async () => {
  for (let commits = 1; commits < 14; commits += 1) {
    const files = new MemoryDisk();
    const store = await openTallies(files);
    const tally = await commitMany(store, "home", commits);
    await store.close();
    expect(files.paths().length).toBeLessThanOrEqual(4);
    expect((await (await openTallies(files)).load("home")).value).toEqual(tally);
    expect(isWhole(tally)).toBe(true);
  }
});

test("a journal that has grown long makes a new generation", async () => {
  const files = new MemoryDisk();
  const store = await openTallies(files, { bytes: 400, commits: 1000 });
  await commitMany(store, "home", 20);
  expect(files.paths().at(-1)).not.toBe("/data/benches/home/snapshot-1.json");
  for (const path of files.paths()) {
    if (path.endsWith(".jsonl")) expect(files.text(path)?.length).toBeLessThan(550);
  }
});

test("a bench goes on in its journal after a restart", async () => {
  const files = new MemoryDisk();
  for (let start = 0; start < 3; start += 1) {
    const store = await openTallies(files, { bytes: 1e6, commits: 1000 });
    await commitMany(store, "home", 2);
    await store.close();
  }
  expect(files.paths()).toEqual([
    "/data/benches/home/journal-1.jsonl",
    "/data/benches/home/snapshot-1.json",
  ]);
  expect(files.text("/data/benches/home/journal-1.jsonl")?.split("\n")).toHaveLength(7);
});

test("a record that could not be read back is refused before it is written", async () => {
  const files = new MemoryDisk();
  const store = await openTallies(files);
  const good = await commitMany(store, "home", 1);
  const negative = { ...good, count: -1 };
  await expect(store.commit("home", good, negative)).rejects.toThrow('(at "count")');
  const notNumber = { ...good, list: [Number.NaN] };
  await expect(store.commit("home", good, notNumber)).rejects.toThrow("cannot be stored");
  await store.commit("home", good, nextTally(good));
  expect((await (await openTallies(files)).load("home")).value).toEqual(nextTally(good));
});

test("a name that cannot be a file is refused in words", async () => {
  const store = await openTallies(new MemoryDisk());
  await expect(store.load("")).rejects.toMatchObject({ kind: "bad-name" });
  await commitMany(store, "home", 1);
  await expect(store.archive("home", "x".repeat(200), {})).rejects.toMatchObject({
    kind: "bad-name",
  });
});

test("a closed store, and one whose folder was taken over, write no more", async () => {
  const files = new MemoryDisk();
  let lost = false;
  const lock = async () => ({ isLost: () => lost, release: async () => undefined });
  const options = { directory: "/data", files, schema: tallySchema, lock };
  const store = await openFileStore(options);
  const tally = await commitMany(store, "home", 1);
  lost = true;
  await expect(store.commit("home", tally, nextTally(tally))).rejects.toThrow(
    "Another Wetside has taken over this folder",
  );
  lost = false;
  await store.close();
  await store.close();
  await expect(store.load("home")).rejects.toMatchObject({ kind: "closed" });
});

test("closing makes safe what was not", async () => {
  const files = new MemoryDisk();
  const store = await openTallies(files);
  const tally = await commitMany(store, "home", 1);
  await store.commit("home", tally, nextTally(tally), { durable: false });
  await store.close();
  const after = files.afterPowerCut(() => 0);
  expect((await (await openTallies(after)).load("home")).value).toEqual(nextTally(tally));
});

const versionTwo = z.object({
  schemaVersion: z.literal(2),
  total: z.number(),
  unit: z.string().default("mL"),
});

const openVersionTwo = (files: MemoryDisk) =>
  openFileStore({
    directory: "/data",
    files,
    lock: noLock,
    schema: versionTwo,
    migrate(record) {
      const old = tallySchema.safeParse(record);
      if (!old.success) return { record, from: 2, to: 2 };
      return { record: { schemaVersion: 2, total: old.data.count }, from: 1, to: 2 };
    },
  });

test("an older record is brought up to date, kept aside, and the newer one is then refused by the older program", async () => {
  const files = new MemoryDisk();
  const old = await openTallies(files);
  await commitMany(old, "home", 2);
  await old.close();

  const store = await openVersionTwo(files);
  const { value, notices } = await store.load("home");
  expect(notices).toEqual([]);
  expect(value).toEqual({ schemaVersion: 2, total: 2, unit: "mL" });
  expect(files.text("/data/benches/home/aside/version-1.json")).toContain('"count":2');
  const before = await openTallies(files);
  expect((await before.load("home")).value).toMatchObject({ count: 2 });
  await before.close();

  if (value !== undefined) await store.commit("home", value, { ...value, total: 5 });
  await store.close();
  const again = await openVersionTwo(files);
  expect((await again.load("home")).value).toMatchObject({ total: 5 });
  const older = await openTallies(files);
  await expect(older.load("home")).rejects.toMatchObject({ kind: "newer-version" });
  await expect(older.load("home")).rejects.toThrow("I cannot use the bench in benches/home.");
});

test("a field the schema fills in is there for later changes to build on", async () => {
  const files = new MemoryDisk();
  const loose = z.object({ schemaVersion: z.literal(1), rolls: z.array(z.string()).default([]) });
  const bare = z.object({ schemaVersion: z.literal(1) });
  const first = await openFileStore({ directory: "/data", files, lock: noLock, schema: bare });
  await first.load("home");
  await first.commit("home", undefined, { schemaVersion: 1 });
  await first.close();
  const second = await openFileStore({ directory: "/data", files, lock: noLock, schema: loose });
  const { value } = await second.load("home");
  if (value === undefined) throw new Error("The bench is gone.");
  await second.commit("home", value, { ...value, rolls: [...value.rolls, "A"] });
  await second.close();
  const third = await openFileStore({ directory: "/data", files, lock: noLock, schema: loose });
  expect((await third.load("home")).value).toEqual({ schemaVersion: 1, rolls: ["A"] });
});

test("an archived record that is damaged is named and left", async () => {
  const files = new MemoryDisk();
  const store = await openTallies(files);
  await commitMany(store, "home", 1);
  await store.archive("home", "run", { a: 1 });
  files.put("/data/benches/home/archive/run.json", "null");
  await expect(store.recall("home", "run")).rejects.toThrow(
    "benches/home/archive/run.json is damaged",
  );
});
