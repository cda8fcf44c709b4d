import { cp, mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { Work } from "../../src/commands/work.ts";
import { performExport } from "../../src/conversation/perform/export.ts";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import { archivedBench } from "../support/archived-bench.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";
import { storeApart } from "../support/store-apart.ts";
import { storeInPassing } from "../support/store-in-passing.ts";

/** So many that a record is longer than a journal may grow, and a new generation follows at once. */
const RUNS = 1100;
const ZIP = "home-2026-11-28-1930.zip";

const open = (directory: string): Promise<Store<BenchRecord>> =>
  openFileStore<BenchRecord>({ directory, schema: recordSchema });

/** A bench with a long past in a folder, and an archive of it beside. */
async function furnish(folder: string): Promise<BenchRecord> {
  const store = await open(folder);
  await store.load("home");
  const record = await archivedBench(folder, "home", RUNS);
  await store.commit("home", undefined, record);
  const bench = { id: "home", record, store, files: filesIn(folder) };
  await performExport(bench, ZIP, evening, () => undefined);
  await store.close();
  return record;
}

type Afterwards = {
  readonly reply: Reply;
  readonly held: BenchRecord;
  /** As a start finds it. */
  readonly found: BenchRecord | undefined;
  readonly archive: ReadonlyMap<string, string>;
};

/** Does something to the bench in a folder, says a word on it, and starts again. */
async function live(
  folder: string,
  work: Exclude<Work, { readonly kind: "export" }>,
  how: (store: Store<BenchRecord>) => Store<BenchRecord>,
): Promise<Afterwards> {
  const store = await open(folder);
  const { value } = await store.load("home");
  if (value === undefined) throw new Error("there is no bench");
  const bench = { id: "home", record: value, store: how(store), files: filesIn(folder) };
  const { reply, record } = await performRewrite(bench, work);
  if (record === undefined) throw new Error("nothing came of it");
  const note = { at: evening, by: "Ines", text: "it goes on" };
  const next = { ...record, bench: { ...record.bench, notes: [...record.bench.notes, note] } };
  await store.commit("home", record, next);
  await store.close();
  const again = await open(folder);
  const { value: found, notices } = await again.load("home");
  expect(notices).toEqual([]);
  await again.close();
  const at = join(folder, "benches", "home", "archive");
  const archive = new Map<string, string>();
  for (const name of await readdir(at)) archive.set(name, await readFile(join(at, name), "utf8"));
  return { reply, held: next, found, archive };
}

test("a thread of its own restores the bench that is restored in passing", async () => {
  const lived: Afterwards[] = [];
  for (const how of [storeApart, storeInPassing]) {
    await withFolder((here) =>
      withFolder(async (there) => {
        const record = await furnish(here);
        const store = await open(there);
        await store.load("home");
        await store.commit("home", undefined, newRecord("home", "UTC"));
        await store.close();
        await mkdir(join(there, "exports"));
        await writeFile(join(there, "exports", ZIP), await readFile(join(here, "exports", ZIP)));
        const after = await live(there, { kind: "restore", file: ZIP }, how);
        expect(after.found).toEqual(after.held);
        expect(after.held.bench.pastRuns).toEqual(record.bench.pastRuns);
        lived.push(after);
      }),
    );
  }
  expect(lived[0]?.archive.size).toBe(RUNS);
  expect(lived[0]).toEqual(lived[1]);
});

test("a thread of its own forgets the member who is forgotten in passing", async () => {
  const lived: Afterwards[] = [];
  for (const how of [storeApart, storeInPassing]) {
    await withFolder(async (folder) => {
      await furnish(folder);
      // One that cannot be read may hold the name.
      await writeFile(join(folder, "benches", "home", "archive", "run-7.json"), "spoilt");
      const after = await live(folder, { kind: "forget-member", who: "Ines" }, how);
      expect(after.found).toEqual(after.held);
      expect([...after.archive.values()].some((text) => text.includes("Ines"))).toBe(false);
      lived.push(after);
    });
  }
  expect(lived[0]?.archive.size).toBe(RUNS - 1);
  expect(lived[0]).toEqual(lived[1]);
});

test("an archive that was altered is refused with a sentence, and the bench is what it was", () =>
  withFolder(async (folder) => {
    const record = await furnish(folder);
    const path = join(folder, "exports", ZIP);
    const bytes = await readFile(path);
    const at = Math.floor(bytes.length / 2);
    bytes[at] = (bytes[at] ?? 0) ^ 0xff;
    await writeFile(path, bytes);
    const store = await open(folder);
    const { value = record } = await store.load("home");
    const bench = { id: "home", record: value, store: storeApart(store), files: filesIn(folder) };
    const refused = performRewrite(bench, { kind: "restore", file: ZIP });
    await expect(refused).rejects.toThrow(
      /^(That archive is damaged|The (runs|bench) in that archive)/,
    );
    const next = { ...value, bench: { ...value.bench, name: "Still mine" } };
    await store.commit("home", value, next);
    await store.close();
    const again = await open(folder);
    expect((await again.load("home")).value).toEqual(next);
    expect(await again.recall("home", "run-1100")).toBeDefined();
    await again.close();
  }));

test("what is said after a bench was written anew is there also after a kill", () =>
  withFolder(async (folder) => {
    await furnish(folder);
    const store = await open(folder);
    const { value } = await store.load("home");
    if (value === undefined) throw new Error("there is no bench");
    expect(Buffer.byteLength(JSON.stringify(value))).toBeGreaterThan(256 * 1024);
    const bench = { id: "home", record: value, store: storeApart(store), files: filesIn(folder) };
    const { record } = await performRewrite(bench, { kind: "restore", file: ZIP });
    if (record === undefined) throw new Error("nothing came of it");
    const next = { ...record, bench: { ...record.bench, name: "Still mine" } };
    await store.commit("home", record, next);
    // What a kill leaves behind, at this moment.
    await withFolder(async (copy) => {
      await cp(join(folder, "benches"), join(copy, "benches"), { recursive: true });
      const again = await open(copy);
      const found = await again.load("home");
      expect(found).toEqual({ value: next, notices: [] });
      await again.close();
    });
    await store.close();
  }));

test("an archive that another has taken the place of meanwhile is refused", () =>
  withFolder(async (folder) => {
    const record = await furnish(folder);
    const other = join(folder, "exports", "home-2026-11-27-1930.zip");
    const store = await open(folder);
    const { value = record } = await store.load("home");
    const own = filesIn(folder);
    const moved = { ...value, bench: { ...value.bench, name: "Another" } };
    const away = { id: "home", record: moved, store, files: own };
    await performExport(away, "home-2026-11-27-1930.zip", evening, () => undefined);
    const files = { ...own, pathOf: () => other };
    const bench = { id: "home", record: value, store: storeApart(store), files };
    await expect(performRewrite(bench, { kind: "restore", file: ZIP })).rejects.toThrow(
      "Another archive has taken its place meanwhile.",
    );
    await store.close();
  }));
