import { z } from "zod";

/** Names inside an archive. Nothing else may lie in one. */
export const MANIFEST = "wetside.json";
export const BENCH = "bench.json";
export const RUNS = "runs.jsonl";
export const PICTURE = /^pictures\/([a-z0-9~_-]{1,120}(?:-phone)?\.(?:png|svg))$/;

/**
 * What an archive may unpack to, bytes, and the values its JSON may hold. Our own bounds: several
 * times what a bench gathers in ten years (an entry of a past run takes 250 bytes and 22 values, a
 * run some kilobytes), and low enough that what is within them never fills the memory or the disk.
 */
export const LIMITS = {
  manifest: 2_000_000,
  manifestValues: 100_000,
  bench: 12_000_000,
  benchValues: 500_000,
  runs: 400_000_000,
  run: 1_000_000,
  runValues: 50_000,
  /** Lists and objects within each other. */
  depth: 64,
  picture: 8_000_000,
  pictures: 256_000_000,
  pictureFiles: 10_000,
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
