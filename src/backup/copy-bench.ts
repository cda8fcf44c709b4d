import { join } from "node:path";
import { draft, ensureFolder, type Folder, publish } from "../store/folder.ts";
import { generationOf, generationsIn, journalName, snapshotName } from "../store/generations.ts";
import { readText } from "../store/recover.ts";
import { replay } from "../store/replay.ts";
import { unsealSnapshot } from "../store/seal.ts";
import { StoreError } from "../store/store-error.ts";

/** A new generation may begin while the one before is read; so often that is tried again. */
const TRIES = 100;

type Pair = { readonly generation: number; readonly snapshot: string; readonly journal: string };

/**
 * Copies what one bench is at this moment: its newest snapshot and the commits of that journal up
 * to the last whole one. The program that owns the folder may go on writing: a journal only grows,
 * a snapshot appears whole, and both stay for as long as the next generation is young.
 *
 * @returns how many files; `damaged` when they do not make a bench and were copied as they are
 */
export async function copyBench(
  from: Folder,
  to: Folder,
): Promise<{ readonly files: number; readonly damaged: boolean }> {
  const pair = await readPair(from);
  if (pair === undefined) return copyAsIs(from, to);
  await copyOut(to, journalName(pair.generation), Buffer.from(pair.journal));
  await copyOut(to, snapshotName(pair.generation), Buffer.from(pair.snapshot));
  return { files: 2, damaged: false };
}

/** A snapshot and its journal that belong together; undefined when there is no whole pair. */
async function readPair(from: Folder): Promise<Pair | undefined> {
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    const generation = await newest(from);
    if (generation === undefined) return undefined;
    const snapshot = await readText(from, snapshotName(generation));
    const journal = await readText(from, journalName(generation));
    // Begun anew meanwhile: what was read of the old one may hold commits that were taken back.
    if ((await newest(from)) !== generation) continue;
    if (snapshot === undefined || journal === undefined) return undefined;
    const whole = journal.slice(0, journal.lastIndexOf("\n") + 1);
    const base = unsealSnapshot(snapshot);
    if (base === undefined) return undefined;
    const { faults } = replay(base, [{ name: journalName(generation), text: whole }]);
    return faults.length === 0 ? { generation, snapshot, journal: whole } : undefined;
  }
  throw new StoreError(
    "conflict",
    `The bench in ${from.shown} changes faster than I can copy it. Try again in a moment.`,
  );
}

async function newest(from: Folder): Promise<number | undefined> {
  return generationsIn(await from.files.list(from.path)).snapshots.at(-1);
}

/** A damaged bench is not mended by a backup: all there is of it is kept. */
async function copyAsIs(from: Folder, to: Folder): Promise<{ files: number; damaged: boolean }> {
  const names = await from.files.list(from.path);
  const ours = names.filter((name) => generationOf(name) !== undefined);
  let files = 0;
  for (const name of ours) {
    const content = await from.files.read(join(from.path, name));
    if (content === undefined) continue;
    await copyOut(to, name, content);
    files += 1;
  }
  // A journal without a snapshot is a first commit that is not there yet.
  return { files, damaged: ours.some((name) => name.startsWith("snapshot")) };
}

/** A whole file, safe on disk, its owner's alone. */
export async function copyOut(to: Folder, name: string, content: Uint8Array): Promise<void> {
  await ensureFolder(to.files, to.path);
  await draft(to, name, content);
  await publish(to, name);
}
