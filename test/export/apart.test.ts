import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { performExport } from "../../src/conversation/perform/export.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { touchedBy } from "../../src/domain/session/touched.ts";
import { filesIn } from "../../src/export/files.ts";
import { openExport, readAll } from "../../src/export/open-export.ts";
import { outlineOf } from "../../src/export/outline.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";
import { seasonRun } from "../support/season.ts";
import { storeInPassing } from "../support/store-in-passing.ts";

const RUNS = 60;

/** A bench on disk with more archived runs than are packed in passing; one of their files is damaged. */
async function withBench(
  use: (bench: { record: BenchRecord; store: Store<BenchRecord>; folder: string }) => Promise<void>,
): Promise<void> {
  await withFolder(async (folder) => {
    const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
    await store.load("home");
    const runs = Array.from({ length: RUNS }, (_, n) =>
      seasonRun(
        { on: `2026-${String(1 + (n % 10)).padStart(2, "0")}-11T20:00`, read: [38, 37.8] },
        n + 1,
      ),
    );
    for (const run of runs) await store.archive("home", run.id, run);
    const fresh = newRecord("home", "Europe/Lisbon");
    const pastRuns = runs.map((run) => {
      const { id, title, tank, plannedAt } = run;
      return { id, title, tank, plannedAt, touched: touchedBy(run) };
    });
    const record = { ...fresh, bench: { ...fresh.bench, pastRuns } };
    await store.commit("home", undefined, record);
    await writeFile(join(store.archivePath?.("home") ?? "", "run-7.json"), "spoilt");
    await use({ record, store, folder });
    await store.close();
  });
}

test("a thread of its own makes the archive that would be made in passing", () =>
  withBench(async ({ record, store, folder }) => {
    const parts: string[] = [];
    for (const archivePath of [store.archivePath?.("home"), undefined]) {
      const from = {
        ...storeInPassing(store),
        ...(archivePath === undefined ? {} : { archivePath: () => archivePath }),
      };
      const bench = { id: "home", record, store: from, files: filesIn(folder) };
      const { reply } = await performExport(bench, "a.zip", evening, () => undefined);
      expect(reply.facts).toMatchObject({ runs: RUNS });
      const open = await openExport(join(folder, "exports", "a.zip"));
      expect(open.manifest.missing).toEqual(["run-7"]);
      const names = ["wetside.json", "bench.json", "runs.jsonl"];
      for (const name of names) parts.push(String(await readAll(await open.stream(name))));
      open.close();
    }
    expect(parts).toHaveLength(6);
    expect(parts.slice(3)).toEqual(parts.slice(0, 3));
  }));

test("what keeps it from being written is told in a sentence", () =>
  withBench(async ({ record, store, folder }) => {
    await mkdir(join(folder, "exports", "a.zip.part"), { recursive: true });
    const bench = { id: "home", record, store, files: filesIn(folder) };
    await expect(performExport(bench, "a.zip", evening, () => undefined)).rejects.toThrow(
      /^The archive could not be written.*\.$/,
    );
  }));

test("the bench in an archive is its record to the last sign, however long its list of past runs", async () => {
  const fresh = newRecord("home", "Europe/Lisbon");
  const run = seasonRun({ on: "2026-01-11T20:00", read: [38, 37.8] }, 1);
  for (const count of [0, 1, 249, 250, 251, 700]) {
    const pastRuns = Array.from({ length: count }, (_, n) => {
      const { title, tank, plannedAt } = run;
      return {
        id: `run-${n}`,
        title: `${title} $& "[]"`,
        tank,
        plannedAt,
        touched: touchedBy(run),
      };
    });
    const record = { ...fresh, bench: { ...fresh.bench, pastRuns } };
    expect(JSON.parse((await outlineOf(record)).texts.join(""))).toEqual(record);
  }
});
