import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { performExport } from "../../src/conversation/perform/export.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { touchedBy } from "../../src/domain/session/touched.ts";
import { filesIn } from "../../src/export/files.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { sealArchived } from "../../src/store/seal.ts";
import { withFolder } from "../support/child.ts";
import { evening } from "../support/runs.ts";
import { seasonRun } from "../support/season.ts";

export type Exporting = {
  readonly runs: number;
  readonly seconds: number;
  readonly bytes: number;
  /** How often progress was told. */
  readonly told: number;
  /** The longest that a cue would have waited, ms. */
  readonly stall: number;
};

/** Exports a bench whose runs stand in files on disk, while a timer watches how long others wait. */
export const benchExport = (count = 5000): Promise<Exporting> =>
  withFolder(async (folder) => {
    const runs = Array.from({ length: count }, (_, n) => {
      const day = Temporal.PlainDate.from("2026-11-27").subtract({ days: Math.floor(n / 4) });
      return seasonRun({ on: `${day}T20:00`, read: [38, 37.8], bottle: "acorn" }, n + 1);
    });
    const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
    await store.load("home");
    const archive = join(folder, "benches", "home", "archive");
    await mkdir(archive, { recursive: true });
    // Written past the store: making each safe on disk is not what is measured here.
    for (const run of runs) await writeFile(join(archive, `${run.id}.json`), sealArchived(run));
    const fresh = newRecord("home", "Europe/Lisbon");
    const pastRuns = runs.map((run) => {
      const { id, title, tank, plannedAt } = run;
      return { id, title, tank, plannedAt, touched: touchedBy(run) };
    });
    const record = { ...fresh, bench: { ...fresh.bench, pastRuns } };
    await store.commit("home", undefined, record);
    const delay = monitorEventLoopDelay({ resolution: 1 });
    let told = 0;
    delay.enable();
    const begin = performance.now();
    const { reply } = await performExport(
      { id: "home", record, store, files: filesIn(folder) },
      "home.zip",
      evening,
      () => {
        told += 1;
      },
    );
    const seconds = (performance.now() - begin) / 1000;
    delay.disable();
    await store.close();
    return { runs: count, seconds, bytes: Number(reply.facts.bytes), told, stall: delay.max / 1e6 };
  });
