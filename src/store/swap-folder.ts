import { join } from "node:path";
import type { Folder } from "./folder.ts";

const incoming = (name: string): string => `${name}.incoming`;
const outgoing = (name: string): string => `${name}.outgoing`;

/** Where the next contents of a folder are put together; empty, whatever was left there before. */
export async function stage({ files, path }: Folder, name: string): Promise<string> {
  await files.removeTree(join(path, incoming(name)));
  return incoming(name);
}

/**
 * Puts what was staged, and is safe on disk, in the place of the folder of that name, and removes
 * the old one with all that is in it. Whenever the power goes, either the one or the other is there
 * at the next start, whole.
 */
export async function swap({ files, path }: Folder, name: string): Promise<void> {
  const at = (which: string): string => join(path, which);
  await files.removeTree(at(outgoing(name)));
  if ((await files.list(path)).includes(name)) {
    await files.rename(at(name), at(outgoing(name)));
    await files.syncDirectory(path);
  }
  await files.rename(at(incoming(name)), at(name));
  await files.syncDirectory(path);
  await files.removeTree(at(outgoing(name)));
  await files.syncDirectory(path);
}

/** Ends a swap that was cut short, forward where the new folder was ready, else back. */
export async function finishSwap({ files, path }: Folder, name: string): Promise<void> {
  const names = new Set(await files.list(path));
  const [next, old] = [incoming(name), outgoing(name)];
  if (!names.has(next) && !names.has(old)) return;
  if (!names.has(name)) {
    // The old folder gives way only to one that is whole.
    if (names.has(old))
      await files.rename(join(path, names.has(next) ? next : old), join(path, name));
    await files.syncDirectory(path);
  }
  await files.removeTree(join(path, next));
  await files.removeTree(join(path, old));
  await files.syncDirectory(path);
}
