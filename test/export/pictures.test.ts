import { cp, mkdir, readdir, readFile, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { performExport } from "../../src/conversation/perform/export.ts";
import { performRewrite } from "../../src/conversation/perform/rewrite.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Files, filesIn } from "../../src/export/files.ts";
import { openExport } from "../../src/export/open-export.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import type { Store } from "../../src/store/store.ts";
import { withFolder } from "../support/child.ts";
import { archiveOf } from "../support/hostile-archive.ts";
import { evening } from "../support/runs.ts";
import { smallPng } from "../support/small-picture.ts";

const commands = await loadCommands();
const png = (grey: number): Buffer => smallPng(new Uint8Array([grey]));
const text = JSON.stringify(newRecord("home", "UTC"));
const open = (directory: string): Promise<Store<BenchRecord>> =>
  openFileStore<BenchRecord>({ directory, schema: recordSchema });

/** Archives a.zip and b.zip, each with a picture of its own, and one without any. */
async function furnish(folder: string): Promise<void> {
  await mkdir(join(folder, "exports"), { recursive: true });
  const made = (name: string, pictures: ReadonlyMap<string, Buffer>) =>
    archiveOf(join(folder, "exports", name), { bench: text, pictures });
  await made("a.zip", new Map([["run-1.png", png(1)]]));
  await made("b.zip", new Map([["run-2.png", png(2)]]));
  await made("none.zip", new Map());
}

async function restore(store: Store<BenchRecord>, files: Files, file: string): Promise<void> {
  const { value } = await store.load("home");
  const record = value ?? newRecord("home", "UTC");
  if (value === undefined) await store.commit("home", undefined, record);
  await performRewrite({ id: "home", record, store, files }, { kind: "restore", file });
}

test.each(["on disk", "in memory"])(
  "after a restore the pictures are the archive's alone: a bench %s",
  (where) =>
    withFolder(async (folder) => {
      await furnish(folder);
      const store = where === "on disk" ? await open(folder) : createMemoryStore<BenchRecord>();
      const files = filesIn(folder);
      const shown = () => readdir(join(folder, "pictures"));
      await restore(store, files, "a.zip");
      expect(await shown()).toEqual(["run-1.png"]);
      await restore(store, files, "b.zip");
      expect(await shown()).toEqual(["run-2.png"]);
      expect(await readFile(join(folder, "pictures", "run-2.png"))).toEqual(png(2));
      await restore(store, files, "none.zip");
      expect(await shown()).toEqual([]);
      const left = (await readdir(folder, { recursive: true })).filter((name) =>
        /incoming|outgoing|benches.*pictures/.test(name),
      );
      expect(left).toEqual([]);
      await store.close();
    }),
);

test("another bench of the same process keeps its pictures", () =>
  withFolder(async (folder) => {
    await furnish(folder);
    const other = join(folder, "discord", "files", "7");
    await mkdir(join(other, "pictures"), { recursive: true });
    await writeFile(join(other, "pictures", "run-1.png"), png(7));
    const store = await open(folder);
    await restore(store, filesIn(folder), "a.zip");
    await restore(store, filesIn(folder), "b.zip");
    expect(await readdir(join(other, "pictures"))).toEqual(["run-1.png"]);
    await store.close();
  }));

/** The steps after the bench has been switched, as far as a kill lets them come. */
const steps: readonly { readonly what: string; go(folder: string): Promise<void> }[] = [
  { what: "nothing yet", go: async () => undefined },
  {
    what: "the old pictures put away",
    go: async (folder) => {
      await rename(join(folder, "pictures"), join(folder, "pictures.outgoing"));
    },
  },
];

test.each(steps)("killed with $what, the next start goes on to the new pictures", ({ go }) =>
  withFolder(async (folder) => {
    await furnish(folder);
    const store = await open(folder);
    const files = filesIn(folder);
    await restore(store, files, "a.zip");
    const killed = { ...files, takePictures: () => new Promise<void>(() => undefined) };
    void restore(store, killed, "b.zip");
    const waiting = join(folder, "benches", "home", "pictures");
    for (let round = 0; round < 3000; round += 1) {
      if ((await readdir(waiting).catch(() => [])).length > 0) break;
      await new Promise((soon) => setTimeout(soon, 10));
    }
    // Both sets are there, whole, at this moment.
    expect(await readdir(join(folder, "pictures"))).toEqual(["run-1.png"]);
    expect(await readdir(waiting)).toEqual(["run-2.png"]);
    await withFolder(async (copy) => {
      await cp(join(folder, "benches"), join(copy, "benches"), { recursive: true });
      await cp(join(folder, "pictures"), join(copy, "pictures"), { recursive: true });
      await go(copy);
      const again = await open(copy);
      const place = { zone: "UTC" };
      const { notices } = await BenchKeeper.open("home", place, again, commands, filesIn(copy));
      expect(notices).toEqual([]);
      expect(await readdir(join(copy, "pictures"))).toEqual(["run-2.png"]);
      const left = (await readdir(copy)).filter((name) => name.startsWith("pictures."));
      expect(left).toEqual([]);
      await again.close();
    });
    await store.close();
  }),
);

test("a restore that is refused leaves the pictures that are there", () =>
  withFolder(async (folder) => {
    await furnish(folder);
    const bad = new Map([
      ["run-3.png", png(3)],
      ["run-4.png", Buffer.from("no picture")],
    ]);
    await archiveOf(join(folder, "exports", "bad.zip"), { bench: text, pictures: bad });
    const store = await open(folder);
    const files = filesIn(folder);
    await restore(store, files, "a.zip");
    await expect(restore(store, files, "bad.zip")).rejects.toThrow("no picture of mine");
    expect(await readdir(join(folder, "pictures"))).toEqual(["run-1.png"]);
    expect(await readdir(join(folder, "benches"))).toEqual(["home"]);
    await store.close();
  }));

test("a bench that a restore would not take is exported, and that is said", () =>
  withFolder(async (folder) => {
    const fresh = newRecord("home", "UTC");
    const notes = Array.from({ length: 20_001 }, () => ({ at: evening, by: "Ines", text: "x" }));
    const record = { ...fresh, bench: { ...fresh.bench, notes } };
    const store = createMemoryStore<BenchRecord>();
    const bench = { id: "home", record, store, files: filesIn(folder) };
    const { reply } = await performExport(bench, "a.zip", evening, () => undefined);
    expect(reply.cautions).toEqual([expect.stringContaining("20,001 notes, more than a restore")]);
  }));

test("what a restore would not take is not exported either", () =>
  withFolder(async (folder) => {
    const pictures = join(folder, "pictures");
    await mkdir(pictures);
    await writeFile(join(pictures, "season-2026-11-28.png"), png(1));
    await writeFile(join(pictures, "season-2026-11-29.png"), "no picture");
    const store = createMemoryStore<BenchRecord>();
    const record = newRecord("home", "UTC");
    await store.commit("home", undefined, record);
    const bench = { id: "home", record, store, files: filesIn(folder) };
    const { reply } = await performExport(bench, "a.zip", evening, () => undefined);
    expect(reply.facts.pictures).toBe(1);
    expect(reply.cautions).toEqual([expect.stringContaining("1 file in pictures is not in it")]);
    const made = await openExport(join(folder, "exports", "a.zip"));
    expect(made.pictures).toEqual(["season-2026-11-28.png"]);
    made.close();
  }));
