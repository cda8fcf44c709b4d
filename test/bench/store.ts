import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { z } from "zod";
import { openFileStore } from "../../src/store/file-store.ts";
import { percentile } from "./percentile.ts";

export type CommitLatency = {
  readonly commits: number;
  /** Size of the record, in bytes of JSON. */
  readonly bytes: number;
  /** In ms, from the call to safe on disk. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
  /** Reading the bench back after a restart, in ms. */
  readonly loadMs: number;
};

const benchSchema = z.object({
  schemaVersion: z.literal(1),
  units: z.number().min(0),
  log: z.array(z.object({ at: z.number(), what: z.string(), by: z.string() })),
  bottles: z.record(z.string(), z.object({ volume: z.number(), mixed: z.string() })),
});
type Bench = z.infer<typeof benchSchema>;

/** A bench of about the largest size we mean to keep. */
export function largeBench(): Bench {
  const log = Array.from({ length: 900 }, (_, at) => ({
    at: 1_795_856_400_000 + at,
    what: `stage ${at} poured, agitated and drained as planned`,
    by: "hands",
  }));
  return {
    schemaVersion: 1,
    units: 0,
    log,
    bottles: { amber: { volume: 946, mixed: "2026-11-01" } },
  };
}

/** Commits one after the other on the disk that holds the temporary folder, or `parent`. */
export async function benchStore(commits = 2000, parent = tmpdir()): Promise<CommitLatency> {
  const directory = await mkdtemp(join(parent, "wetside-bench-"));
  try {
    const options = { directory, schema: benchSchema };
    const store = await openFileStore(options);
    await store.load("home");
    let bench = largeBench();
    const bytes = JSON.stringify(bench).length;
    await store.commit("home", undefined, bench);
    const took: number[] = [];
    for (let commit = 0; commit < commits; commit += 1) {
      const event = { at: commit, what: "agitated", by: "hands" };
      const grown = commit % 100 === 0 ? bench.log.slice(0, 900) : [...bench.log, event];
      const next = { ...bench, units: bench.units + 1, log: grown };
      const start = performance.now();
      await store.commit("home", bench, next);
      took.push(performance.now() - start);
      bench = next;
    }
    await store.close();
    const start = performance.now();
    const again = await openFileStore(options);
    await again.load("home");
    const loadMs = performance.now() - start;
    await again.close();
    return {
      commits,
      bytes,
      p50: percentile(took, 50),
      p99: percentile(took, 99),
      max: percentile(took, 100),
      loadMs,
    };
  } finally {
    await rm(directory, { recursive: true, force: true });
  }
}
