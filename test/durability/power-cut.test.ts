import { expect, test } from "vitest";
import type { Store } from "../../src/store/store.ts";
import { MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import {
  isWhole,
  nextTally,
  openTallies,
  spoilNewestSnapshot,
  type Tally,
} from "../support/tally.ts";

type Progress = { tried: number; safe: number };

/** Twelve commits, every third one without waiting for the disk, every fourth overlapping the next. */
async function work(store: Store<Tally>, progress: Progress): Promise<void> {
  let tally = (await store.load("home")).value;
  for (let step = 1; step <= 12; step += 1) {
    const durable = step % 3 !== 0;
    const next = nextTally(tally);
    progress.tried = next.count;
    const commit = store.commit("home", tally, next, { durable });
    const acknowledged = commit.then(() => {
      if (durable) progress.safe = next.count;
    });
    tally = next;
    if (step % 4 === 0) {
      const after = nextTally(tally);
      progress.tried = after.count;
      const both = [acknowledged, store.commit("home", tally, after)];
      for (const one of await Promise.allSettled(both)) {
        if (one.status === "rejected") throw one.reason;
      }
      progress.safe = after.count;
      tally = after;
    }
    await acknowledged;
  }
}

async function countOperations(): Promise<number> {
  const disk = new MemoryDisk();
  let operations = 0;
  disk.fault = () => {
    operations += 1;
    return undefined;
  };
  await work(await openTallies(disk), { tried: 0, safe: 0 });
  return operations;
}

/** Runs until the power goes at operation `last`, and answers what was promised by then. */
async function workUntil(disk: MemoryDisk, last: number): Promise<Progress> {
  let operations = 0;
  disk.fault = () => {
    operations += 1;
    return operations > last ? { code: "EIO" } : undefined;
  };
  const progress = { tried: 0, safe: 0 };
  try {
    await work(await openTallies(disk), progress);
  } catch {
    // The power went.
  }
  return progress;
}

test("after a power cut at any operation every acknowledged commit is there, once, even if the newest snapshot is damaged", async () => {
  const operations = await countOperations();
  expect(operations).toBeGreaterThan(60);
  for (let last = 0; last <= operations; last += 1) {
    for (let seed = 0; seed < 12; seed += 1) {
      const disk = new MemoryDisk();
      const before = await workUntil(disk, last);
      const after = disk.afterPowerCut(seeded(last * 100 + seed));
      const spoilt = after.afterPowerCut(() => 0);
      const store = await openTallies(after);
      const { value, notices } = await store.load("home");
      expect(notices.join()).not.toContain("missing");
      const where = `cut at ${last}, seed ${seed}`;
      if (before.safe > 0 && spoilNewestSnapshot(spoilt)) {
        const mended = (await (await openTallies(spoilt)).load("home")).value;
        expect(mended?.count, where).toBeGreaterThanOrEqual(before.safe);
        expect(mended !== undefined && isWhole(mended), where).toBe(true);
      }
      const count = value?.count ?? 0;
      expect(count, where).toBeGreaterThanOrEqual(before.safe);
      expect(count, where).toBeLessThanOrEqual(before.tried);
      if (value !== undefined) expect(isWhole(value), where).toBe(true);

      const again = nextTally(value);
      await store.commit("home", value, again);
      const third = await openTallies(after.afterPowerCut(seeded(seed)));
      expect((await third.load("home")).value, where).toEqual(again);
    }
  }
});
