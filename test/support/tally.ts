import { z } from "zod";
import type { FileSystem } from "../../src/platform/file-system.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import type { Store } from "../../src/store/store.ts";
import type { MemoryDisk } from "./memory-disk.ts";

/** The smallest record that shows a lost or doubled commit: the list must count from 1 to `count`. */
export const tallySchema = z.object({
  schemaVersion: z.literal(1),
  count: z.int().min(0),
  list: z.array(z.number()),
});
export type Tally = z.infer<typeof tallySchema>;

const firstTally: Tally = { schemaVersion: 1, count: 1, list: [1] };

export const nextTally = (tally: Tally | undefined): Tally =>
  tally === undefined
    ? firstTally
    : { ...tally, count: tally.count + 1, list: [...tally.list, tally.count + 1] };

/** True when nothing is missing in the middle and nothing is there twice. */
export const isWhole = ({ count, list }: Tally): boolean =>
  list.length === count && list.every((number, at) => number === at + 1);

/** Spoils the newest snapshot, after which every commit must still be there. False if none is. */
export function spoilNewestSnapshot(disk: MemoryDisk): boolean {
  const number = (path: string): number => Number(/snapshot-(\d+)\.json$/.exec(path)?.[1] ?? 0);
  const [newest] = disk.paths().sort((one, other) => number(other) - number(one));
  if (newest === undefined || number(newest) === 0) return false;
  disk.put(newest, "null");
  return true;
}

/** A store of tallies on any disk, in generations short enough for a test to see several. */
export const openTallies = (
  files: FileSystem,
  limits = { bytes: 100_000, commits: 3 },
): Promise<Store<Tally>> =>
  openFileStore({
    directory: "/data",
    files,
    schema: tallySchema,
    limits,
    lock: async () => ({ isLost: () => false, release: async () => undefined }),
  });
