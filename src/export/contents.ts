import { z } from "zod";

/** Names inside an archive. Nothing else may lie in one. */
export const MANIFEST = "wetside.json";
export const BENCH = "bench.json";
export const RUNS = "runs.jsonl";
export const PICTURE = /^pictures\/([a-z0-9~_-]{1,120}(?:-phone)?\.(?:png|svg))$/;

/**
 * What an archive may unpack to, bytes: well above what a bench can hold, and low enough that a
 * file made to fill the memory or the disk is turned away before it is unpacked.
 */
export const LIMITS = {
  entries: 40_000,
  manifest: 1_000_000,
  bench: 64_000_000,
  runs: 1_000_000_000,
  run: 2_000_000,
  picture: 20_000_000,
  pictures: 1_000_000_000,
  /** Nothing honest packs better than this. */
  ratio: 400,
} as const;

const count = z.int().min(0);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** The page an archive begins with, so to speak: what it is and what must be in it. */
export const manifestSchema = z.strictObject({
  schema: z.literal("wetside-export"),
  version: z.literal(1),
  made: z.iso.datetime().describe("when, UTC"),
  bench: z.string().describe("its name"),
  counts: z.strictObject({
    runs: count.describe("at hand and in files"),
    archived: count.describe("lines of runs.jsonl"),
    bottles: count,
    sheets: count,
    rolls: count,
    reminders: count,
    pictures: count,
  }),
  missing: z.array(z.string()).describe("ids of runs whose files could not be read"),
  sha256: z.strictObject({ bench: sha256, runs: sha256 }),
  pictures: z.record(z.string(), sha256).describe("by name within pictures/"),
});
export type Manifest = z.infer<typeof manifestSchema>;
