import type { Standing } from "./bench-log.ts";
import { ensureFolder, type Folder, within, writeInto } from "./folder.ts";
import { type AdapterOptions, JournalAdapter } from "./journal-adapter.ts";
import { fileNameOf } from "./names.ts";
import { checkPlain } from "./plain.ts";
import { sealArchived } from "./seal.ts";
import type { Archives } from "./store.ts";

/** So many files of an archive are made safe at once: a disk takes them together. */
const AT_ONCE = 16;

/**
 * Puts a whole bench into a folder nobody reads yet; all of it is safe when this is over.
 *
 * @returns where its files stand, for whoever goes on writing to them
 */
export async function fillBench<T>(
  folder: Folder,
  next: T,
  archives: Archives,
  options: AdapterOptions<T>,
): Promise<Standing> {
  const { files, path } = folder;
  await ensureFolder(files, path);
  const archive = within(folder, "archive");
  await ensureFolder(files, archive.path);
  let writing: Promise<void>[] = [];
  try {
    for await (const [name, record] of archives) {
      checkPlain(record, name);
      writing.push(writeInto(archive, `${fileNameOf(name)}.json`, sealArchived(record)));
      if (writing.length < AT_ONCE) continue;
      await Promise.all(writing);
      writing = [];
    }
  } finally {
    // Whatever went wrong, nothing is written any more when this is over.
    await Promise.allSettled(writing);
  }
  await Promise.all(writing);
  await files.syncDirectory(archive.path);
  const adapter = new JournalAdapter<T>(folder, options);
  await adapter.read();
  await adapter.write(next);
  // A long record is followed by a new generation at once: only then is it known where it stands.
  await adapter.settled();
  const { standing } = adapter;
  await adapter.close();
  await files.syncDirectory(path);
  return standing;
}
