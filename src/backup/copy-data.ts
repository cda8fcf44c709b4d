import { join } from "node:path";
import { ensureFolder, type Folder, within } from "../store/folder.ts";
import { copyBench, copyOut } from "./copy-bench.ts";

export type Copied = {
  readonly benches: number;
  readonly files: number;
  /** Benches that are damaged where they lie, as they are called in the data folder. */
  readonly damaged: readonly string[];
};

/** Where stores keep their benches: the program's own, and Discord's places of them. */
const STORES = [["benches"], ["discord", "benches"]];
/** Beside a bench's record: runs that ended long ago, what was kept aside, pictures not yet laid out. */
const BESIDE = ["archive", "aside", "pictures"];

const inside = (folder: Folder, path: readonly string[]): Folder => path.reduce(within, folder);

/**
 * Copies all of a data folder that the program could not make again, while it runs. A bench goes
 * before its archive, since a run is archived before it leaves the bench: at worst it is in both.
 */
export async function copyData(from: Folder, to: Folder): Promise<Copied> {
  await ensureFolder(to.files, to.path);
  let benches = 0;
  let files = 0;
  const damaged: string[] = [];
  for (const store of STORES) {
    const source = inside(from, store);
    for (const id of (await from.files.list(source.path)).toSorted()) {
      const bench = within(source, id);
      const target = within(inside(to, store), id);
      const copied = await copyBench(bench, target);
      files += copied.files;
      if (copied.files > 0 && store.length === 1) benches += 1;
      if (copied.damaged) damaged.push(bench.shown);
      for (const name of BESIDE)
        files += await copyFiles(within(bench, name), within(target, name));
    }
  }
  files += await copyFiles(within(from, "pictures"), within(to, "pictures"));
  return { benches, files, damaged };
}

/** Files that are whole wherever they stand under their own name; drafts are left. */
async function copyFiles(from: Folder, to: Folder): Promise<number> {
  let files = 0;
  for (const name of await from.files.list(from.path)) {
    if (/\.(new|part)$/.test(name)) continue;
    const content = await from.files.read(join(from.path, name));
    if (content === undefined) continue;
    await copyOut(to, name, content);
    files += 1;
  }
  return files;
}
