import { expect, test } from "vitest";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import type { Archives, Store } from "../../src/store/store.ts";
import { MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import { isWhole, nextTally, openTallies, type Tally } from "../support/tally.ts";

async function* archived(...names: readonly string[]): Archives {
  for (const name of names) yield [name, { name }];
}

/** A bench with a history: several generations, an archive, and a copy kept aside. */
async function livedBench(store: Store<Tally>): Promise<Tally> {
  let tally = (await store.load("home")).value;
  for (let step = 0; step < 8; step += 1) {
    const next = nextTally(tally);
    await store.commit("home", tally, next);
    tally = next;
  }
  await store.archive("home", "old run", { name: "old run" });
  return tally ?? nextTally(undefined);
}

const fresh = (): Tally => nextTally(undefined);

test.each([
  { name: "file store", open: async () => openTallies(new MemoryDisk()) },
  { name: "memory store", open: async () => createMemoryStore<Tally>() },
])(
  "$name: a bench written anew holds what it was given and nothing else, and goes on",
  async ({ open }) => {
    const store = await open();
    const old = await livedBench(store);
    const next = fresh();
    const held = await store.rewrite("home", old, next, archived("a", "b"));
    expect(held).toEqual(next);
    expect(await store.recall("home", "old run")).toBeUndefined();
    expect(await store.recall("home", "b")).toEqual({ name: "b" });
    await expect(store.commit("home", old, nextTally(old))).rejects.toMatchObject({
      kind: "conflict",
    });
    await store.commit("home", held, nextTally(held));
    await store.archive("home", "c", { name: "c" });
    expect(await store.recall("home", "c")).toEqual({ name: "c" });
  },
);

test("no byte of the old bench is left on disk, and no other bench is touched", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk);
  const old = await livedBench(store);
  await store.load("other");
  await store.commit("other", undefined, fresh());
  await store.archive("other", "kept", { name: "kept" });
  await store.rewrite("home", old, fresh(), archived("a"));
  const texts = disk.paths().map((path) => [path, disk.text(path) ?? ""] as const);
  expect(texts.filter(([, text]) => text.includes("old run"))).toEqual([]);
  expect(texts.filter(([path]) => /incoming|outgoing/.test(path))).toEqual([]);
  expect(await store.recall("other", "kept")).toEqual({ name: "kept" });
});

test("archives that cannot be read leave the old bench as it was", async () => {
  const store = await openTallies(new MemoryDisk());
  const old = await livedBench(store);
  async function* broken(): Archives {
    yield ["a", { name: "a" }];
    throw new Error("the file ends here");
  }
  await expect(store.rewrite("home", old, fresh(), broken())).rejects.toThrow();
  expect((await store.load("home")).value).toEqual(old);
  await store.commit("home", old, nextTally(old));
  expect(await store.recall("home", "old run")).toEqual({ name: "old run" });
});

test("whenever the power goes, the old bench or the new one is there, whole", async () => {
  const count = { operations: 0 };
  const probe = new MemoryDisk();
  const first = await openTallies(probe);
  const lived = await livedBench(first);
  probe.fault = () => {
    count.operations += 1;
    return undefined;
  };
  await first.rewrite("home", lived, fresh(), archived("a", "b"));
  const seen = new Set<string>();
  for (let last = 0; last <= count.operations; last += 1) {
    const chance = seeded(last + 1);
    const disk = new MemoryDisk();
    const store = await openTallies(disk);
    const old = await livedBench(store);
    let operations = 0;
    disk.fault = () => {
      operations += 1;
      return operations > last ? { code: "EIO" } : undefined;
    };
    const next = fresh();
    await store.rewrite("home", old, next, archived("a", "b")).catch(() => undefined);
    const after = disk.afterPowerCut(chance);
    const again = await openTallies(after);
    const { value } = await again.load("home");
    const isNew = value?.count === next.count;
    expect(value !== undefined && isWhole(value), `after ${last} operations`).toBe(true);
    expect(value).toEqual(isNew ? next : old);
    const archive = await Promise.all(
      ["a", "b", "old run"].map((name) => again.recall("home", name)),
    );
    expect(archive.map((one) => one !== undefined)).toEqual([isNew, isNew, !isNew]);
    expect(after.paths().filter((path) => /incoming|outgoing/.test(path))).toEqual([]);
    seen.add(isNew ? "new" : "old");
  }
  expect([...seen].sort()).toEqual(["new", "old"]);
});
