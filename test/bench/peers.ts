import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { JSONFilePreset } from "lowdb/node";
import { schedule } from "node-cron";
import writeFileAtomic from "write-file-atomic";
import { percentile } from "./percentile.ts";

export type CuePeer = { readonly early: number; readonly p99: number; readonly max: number };
export type WritePeer = { readonly p50: number; readonly p99: number };

const CUES = 10_000;
const SPREAD_MS = 5000;

function spread(values: readonly number[]): CuePeer {
  return {
    early: values.filter((late) => late < 0).length,
    p99: percentile(values, 99),
    max: Math.max(...values),
  };
}

/** The same number of cues over the same five seconds, each with a `setTimeout` of its own. */
export async function benchTimeouts(): Promise<CuePeer> {
  const start = performance.now() + 200;
  const late: number[] = [];
  const all = Promise.withResolvers<void>();
  for (let cue = 0; cue < CUES; cue += 1) {
    const due = start + (cue / CUES) * SPREAD_MS;
    setTimeout(() => {
      late.push(performance.now() - due);
      if (late.length === CUES) all.resolve();
    }, due - performance.now());
  }
  await all.promise;
  return spread(late);
}

/** A hundred jobs of node-cron, each second for five seconds; it knows no finer step. */
export async function benchCron(): Promise<CuePeer> {
  const late: number[] = [];
  const tasks = Array.from({ length: 100 }, () =>
    schedule("* * * * * *", () => void late.push(Date.now() % 1000), {
      suppressMissedWarning: true,
    }),
  );
  await new Promise((done) => setTimeout(done, SPREAD_MS));
  for (const task of tasks) await task.destroy();
  return spread(late);
}

const WRITES = 200;

async function timed(write: (n: number) => Promise<void>): Promise<WritePeer> {
  const took: number[] = [];
  for (let n = 0; n < WRITES; n += 1) {
    const began = performance.now();
    await write(n);
    took.push(performance.now() - began);
  }
  return { p50: percentile(took, 50), p99: percentile(took, 99) };
}

/** The same value written whole by lowdb as it comes (no sync) and by write-file-atomic (sync). */
export async function benchWriters(
  value: object,
): Promise<{ lowdb: WritePeer; atomic: WritePeer }> {
  const folder = await mkdtemp(join(tmpdir(), "wetside-bench-"));
  try {
    const low = await JSONFilePreset<{ n: number; value: object }>(join(folder, "low.json"), {
      n: 0,
      value,
    });
    const lowdb = await timed(async (n) => {
      low.data.n = n;
      await low.write();
    });
    const atomic = await timed((n) =>
      writeFileAtomic(join(folder, "atomic.json"), JSON.stringify({ n, value })),
    );
    return { lowdb, atomic };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
