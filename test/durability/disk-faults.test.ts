import { expect, test } from "vitest";
import type { Store } from "../../src/store/store.ts";
import { StoreError } from "../../src/store/store-error.ts";
import { type Fault, MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import {
  isWhole,
  nextTally,
  openTallies,
  spoilNewestSnapshot,
  type Tally,
} from "../support/tally.ts";

type Failure = { readonly code: string; readonly taken?: number };

/** Fails `length` operations from the one numbered `from` on; only the first takes some bytes. */
function failing(from: number, length: number, { code, taken }: Failure, only?: string): Fault {
  let operations = 0;
  return ({ name }) => {
    if (only !== undefined && name !== only) return undefined;
    operations += 1;
    if (operations <= from || operations > from + length) return undefined;
    return operations === from + 1 && taken !== undefined ? { code, taken } : { code };
  };
}

type Outcome = { held: Tally | undefined; acknowledged: number; refusals: StoreError[] };

/** Ten commits that are each tried again until they are taken, as a user would. */
async function persist(store: Store<Tally>): Promise<Outcome> {
  const outcome: Outcome = { held: undefined, acknowledged: 0, refusals: [] };
  let loaded = false;
  for (let attempts = 0; outcome.acknowledged < 10 && attempts < 60; attempts += 1) {
    const next = nextTally(outcome.held);
    const durable = outcome.acknowledged % 4 !== 2;
    try {
      if (!loaded) outcome.held = (await store.load("home")).value;
      loaded = true;
      await store.commit("home", outcome.held, next, { durable });
      outcome.held = next;
      outcome.acknowledged += 1;
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      outcome.refusals.push(error);
    }
  }
  return outcome;
}

const faults: readonly { name: string; fault: Failure; only?: string }[] = [
  { name: "disk full", fault: { code: "ENOSPC" } },
  { name: "disk full after some bytes", fault: { code: "ENOSPC", taken: 20 }, only: "write" },
  { name: "over the quota", fault: { code: "EDQUOT" }, only: "write" },
  { name: "I/O error", fault: { code: "EIO" } },
  { name: "I/O error of a sync", fault: { code: "EIO" }, only: "sync" },
  { name: "I/O error of a folder's sync", fault: { code: "EIO" }, only: "sync-directory" },
  { name: "I/O error of a rename", fault: { code: "EIO" }, only: "rename" },
];

test.each(faults)(
  "$name at any operation loses no acknowledged commit",
  async ({ fault, only }) => {
    const seen = new Set<string>();
    for (let from = 0; from < 130; from += 1) {
      for (const length of [1, 2, 7]) {
        const where = `${length} from ${from}`;
        const disk = new MemoryDisk();
        disk.fault = failing(from, length, fault, only);
        const opening = openTallies(disk);
        const store = await opening.catch(() => openTallies(disk)).catch(() => undefined);
        if (store === undefined) continue;
        const outcome = await persist(store);
        disk.fault = () => undefined;
        for (const refusal of outcome.refusals) seen.add(refusal.kind);

        expect(outcome.acknowledged, where).toBe(10);
        await store.commit("home", outcome.held, nextTally(outcome.held));
        for (let seed = 0; seed < 3; seed += 1) {
          const after = disk.afterPowerCut(seeded(from * 10 + seed));
          const { value, notices } = await (await openTallies(after)).load("home");
          expect(value, where).toEqual(nextTally(outcome.held));
          expect(notices, where).toEqual([]);
          spoilNewestSnapshot(after);
          const { value: mended } = await (await openTallies(after)).load("home");
          expect(mended, where).toEqual(value);
        }
        await store.close();
      }
    }
    expect([...seen]).toEqual([fault.code === "EIO" ? "disk-error" : "disk-full"]);
  },
);

test("a refused commit leaves the value as it was, and says what to do", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk);
  await store.load("home");
  const first = nextTally(undefined);
  await store.commit("home", undefined, first);
  disk.fault = ({ name }) => (name === "write" ? { code: "ENOSPC" } : undefined);
  await expect(store.commit("home", first, nextTally(first))).rejects.toThrow(
    "The disk is full, so I could not save that change. Free some space and try again.",
  );
  expect((await store.load("home")).value).toBe(first);
  disk.fault = () => undefined;
  await store.commit("home", first, nextTally(first));
});

test("a commit after a failed sync does not lean on what that sync may have lost", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk, { bytes: 100_000, commits: 1000 });
  await store.load("home");
  const one = nextTally(undefined);
  const two = nextTally(one);
  const three = nextTally(two);
  await store.commit("home", undefined, one);
  await store.commit("home", one, two, { durable: false });
  disk.fault = ({ name }) => (name === "sync" ? { code: "EIO" } : undefined);
  await expect(store.commit("home", two, three)).rejects.toMatchObject({ kind: "disk-error" });
  disk.fault = () => undefined;
  await store.commit("home", two, three);
  const after = disk.afterPowerCut(() => 0);
  expect(spoilNewestSnapshot(after)).toBe(true);
  expect((await (await openTallies(after)).load("home")).value).toEqual(three);
});

test("commits built on one that failed fail with it", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk);
  await store.load("home");
  const one = nextTally(undefined);
  await store.commit("home", undefined, one);
  const two = nextTally(one);
  const three = nextTally(two);
  const four = nextTally(three);
  disk.fault = ({ name }) => (name === "sync" ? { code: "EIO" } : undefined);
  const commits = [
    store.commit("home", one, two),
    store.commit("home", two, three),
    store.commit("home", three, four),
  ];
  const results = await Promise.allSettled(commits);
  expect(results.map(({ status }) => status)).toEqual(["rejected", "rejected", "rejected"]);
  disk.fault = () => undefined;
  expect((await store.load("home")).value).toBe(one);
  await store.commit("home", one, two);
  const { value } = await (await openTallies(disk)).load("home");
  expect(value).toEqual(two);
});

test("overlapping commits share a sync", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk, { bytes: 100_000, commits: 1000 });
  await store.load("home");
  let syncs = 0;
  disk.fault = ({ name }) => {
    if (name === "sync") syncs += 1;
    return undefined;
  };
  let tally = nextTally(undefined);
  await store.commit("home", undefined, tally);
  syncs = 0;
  const commits: Promise<void>[] = [];
  for (let count = 0; count < 50; count += 1) {
    const next = nextTally(tally);
    commits.push(store.commit("home", tally, next));
    tally = next;
  }
  await Promise.all(commits);
  expect(syncs).toBe(2);
  const { value } = await (await openTallies(disk)).load("home");
  expect(value).toEqual(tally);
  expect(value !== undefined && isWhole(value)).toBe(true);
});
