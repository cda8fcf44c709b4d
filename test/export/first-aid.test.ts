import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { filesIn } from "../../src/export/files.ts";
import { createMemoryStore } from "../../src/store/memory-store.ts";
import { withFolder } from "../support/child.ts";
import { archiveOf } from "../support/hostile-archive.ts";
import { at } from "../support/runs.ts";

test("first aid is answered while a bench is restored, and all else after it", () =>
  withFolder(async (folder) => {
    await mkdir(join(folder, "exports"));
    const bench = JSON.stringify(newRecord("home", "UTC"));
    await archiveOf(join(folder, "exports", "a.zip"), { bench });
    const own = filesIn(folder);
    const opened = Promise.withResolvers<void>();
    const goOn = Promise.withResolvers<void>();
    const files = {
      ...own,
      open: async (name: string) => {
        opened.resolve();
        await goOn.promise;
        return own.open(name);
      },
    };
    const store = createMemoryStore<BenchRecord>();
    const place = { zone: "UTC" };
    const { keeper } = await BenchKeeper.open("home", place, store, await loadCommands(), files);
    const said: string[] = [];
    const say = async (text: string, second: number): Promise<void> => {
      const message = { text, who: "Ines", standing: "owner" as const };
      said.push((await keeper.hear(message, at(second))).title);
    };
    const restoring = say("restore everything", 0);
    await opened.promise;
    const bottles = say("bottles", 1);
    await say("eyes", 2);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/Rinse eyes/);
    goOn.resolve();
    await Promise.all([restoring, bottles]);
    expect(said[1]).toContain("Restored from a.zip");
    expect(said).toHaveLength(3);
  }));
