import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { touchedBy } from "../../src/domain/session/touched.ts";
import { sealArchived } from "../../src/store/seal.ts";
import { seasonRun } from "./season.ts";

/**
 * INVENTED: a bench with so many archived runs on disk, four a day up to 27 November 2026. The
 * files are written past the store; the record is the caller's to commit.
 */
export async function archivedBench(data: string, id: string, count: number): Promise<BenchRecord> {
  const archive = join(data, "benches", id, "archive");
  await mkdir(archive, { recursive: true });
  const runs = Array.from({ length: count }, (_, n) => {
    const day = Temporal.PlainDate.from("2026-11-27").subtract({ days: Math.floor(n / 4) });
    return seasonRun({ on: `${day}T20:00`, read: [38, 37.8], bottle: "acorn" }, n + 1);
  });
  for (const run of runs) await writeFile(join(archive, `${run.id}.json`), sealArchived(run));
  const fresh = newRecord(id, "Europe/Lisbon");
  const pastRuns = runs.map((run) => {
    const { id: name, title, tank, plannedAt } = run;
    return { id: name, title, tank, plannedAt, touched: touchedBy(run) };
  });
  return { ...fresh, bench: { ...fresh.bench, pastRuns, nextId: count + 1 } };
}
