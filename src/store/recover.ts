import { join } from "node:path";
import type { Folder } from "./folder.ts";
import { type Generations, generationsIn, journalName, snapshotName } from "./generations.ts";
import { type Fault, type Journal, replay } from "./replay.ts";
import { type Snapshot, unsealSnapshot } from "./seal.ts";
import { diskError, StoreError } from "./store-error.ts";

/** What a bench's files amount to. */
export type Recovered = Snapshot & {
  /** The generation the record was built on. */
  readonly generation: number;
  /** Length in bytes of that generation's journal, when more can be written to it; else undefined. */
  readonly journalLength: number | undefined;
  readonly faults: readonly (Fault | SnapshotFault)[];
};

/** `missing`: a snapshot or a journal that must have been there is gone. */
type SnapshotFault = { readonly kind: "snapshot" | "missing"; readonly name: string };

export type Found = { readonly highest: number; readonly bench: Recovered | undefined };

// A byte order mark is kept, so that it shows as the damage it is.
const utf8 = new TextDecoder("utf-8", { ignoreBOM: true });

/** Reads a file as text; undefined when it is not there. */
export async function readText(folder: Folder, name: string): Promise<string | undefined> {
  try {
    const bytes = await folder.files.read(join(folder.path, name));
    return bytes === undefined ? undefined : utf8.decode(bytes);
  } catch (error) {
    throw diskError(error, `read ${folder.shown}/${name}`);
  }
}

/**
 * Finds the newest whole snapshot and makes every later commit again. Alters nothing on disk.
 * Throws when there is something but no way to make a record of it.
 */
export async function recover(folder: Folder): Promise<Found> {
  const generations = generationsIn(await listFiles(folder));
  const { highest } = generations;
  const damaged: SnapshotFault[] = [];
  for (const generation of generations.snapshots.toReversed()) {
    const name = snapshotName(generation);
    const snapshot = unsealSnapshot((await readText(folder, name)) ?? "");
    if (snapshot !== undefined) {
      return { highest, bench: await build(folder, generations, generation, snapshot, damaged) };
    }
    damaged.push({ kind: "snapshot", name });
  }
  return { highest, bench: await buildFromJournals(folder, generations, damaged) };
}

/** A journal that begins with a whole record can do without its snapshot. */
async function buildFromJournals(
  folder: Folder,
  generations: Generations,
  damaged: readonly SnapshotFault[],
): Promise<Recovered | undefined> {
  const nothing = { sequence: 0, record: undefined };
  const bench = await build(folder, generations, 0, nothing, damaged);
  if (bench.record !== undefined) return bench;
  // An empty journal alone is a first commit that was never finished: no bench yet.
  if (bench.faults.length === 0) return undefined;
  const names = new Set(bench.faults.map(({ name }) => `${folder.shown}/${name}`));
  throw new StoreError(
    "unreadable",
    `I cannot read this bench: damaged, missing or not fitting the others: ${[...names].sort().join(", ")}. Nothing was changed. Put back a backup of the folder ${folder.shown} in the data folder, or move that folder away to begin afresh.`,
  );
}

async function listFiles(folder: Folder): Promise<readonly string[]> {
  try {
    return await folder.files.list(folder.path);
  } catch (error) {
    throw diskError(error, `read the folder ${folder.shown}`);
  }
}

/** `generation` 0 stands for a record that was not there yet. */
async function build(
  folder: Folder,
  generations: Generations,
  generation: number,
  snapshot: Snapshot,
  damaged: readonly SnapshotFault[],
): Promise<Recovered> {
  const missing: SnapshotFault[] = [];
  const journals: Journal[] = [];
  let length: number | undefined;
  for (const number of generations.journals) {
    if (number < generation) continue;
    const name = journalName(number);
    const text = (await readText(folder, name)) ?? "";
    journals.push({ name, text });
    if (number === generation) length = Buffer.byteLength(text);
    // An empty journal is what a snapshot that was never finished leaves behind.
    else if (text !== "" && !generations.snapshots.includes(number)) {
      missing.push({ kind: "missing", name: snapshotName(number) });
    }
  }
  if (generation > 0 && length === undefined) {
    missing.push({ kind: "missing", name: journalName(generation) });
  }
  const replayed = replay(snapshot, journals);
  const faults = [...damaged, ...missing, ...replayed.faults];
  const journalLength = faults.length === 0 ? length : undefined;
  return { ...replayed, generation, journalLength, faults };
}
