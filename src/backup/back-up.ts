import { readdir, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join, resolve, sep } from "node:path";
import { nodeFileSystem as files } from "../platform/file-system.ts";
import { diskError, StoreError } from "../store/store-error.ts";
import { type Copied, copyData } from "./copy-data.ts";

/**
 * Copies a data folder into a new folder, which is itself a data folder. The program may run on it
 * meanwhile. The copy has its name only once it is whole and safe on disk.
 *
 * @throws StoreError when there is nothing to copy, or no place for it
 */
export async function backUp(data: string, into: string): Promise<Copied> {
  const source = resolve(data);
  const target = resolve(into);
  const holds = (outer: string, inner: string): boolean =>
    `${inner}${sep}`.startsWith(`${outer}${sep}`);
  if (holds(source, target) || holds(target, source)) {
    throw new StoreError("bad-name", "A backup cannot lie in the data folder, nor around it.");
  }
  const there = await stat(join(source, "benches")).catch(() => undefined);
  if (there?.isDirectory() !== true) {
    throw new StoreError("bad-name", "There are no benches to back up: is WETSIDE_DATA right?");
  }
  if ((await readdir(target).catch(() => [])).length > 0) {
    throw new StoreError("bad-name", "There is something in that folder already. Name a new one.");
  }
  const draft = join(dirname(target), `.${basename(target)}.part-${process.pid}`);
  try {
    const from = { files, path: source, shown: "" };
    const copied = await copyData(from, { files, path: draft, shown: "" });
    await rename(draft, target);
    await files.syncDirectory(dirname(target));
    return copied;
  } catch (error) {
    await rm(draft, { recursive: true, force: true }).catch(() => undefined);
    throw diskError(error, "write the backup");
  }
}
