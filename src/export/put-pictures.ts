import { ensureFolder, type Folder, writeInto } from "../store/folder.ts";
import type { OpenExport } from "./open-export.ts";
import { readPicture } from "./read-export.ts";

/**
 * Puts the pictures of an archive into a folder nobody looks into yet, each checked; they are safe
 * there when this is over. The folder is there also for none: it takes the place of the old one.
 *
 * @throws ExportError with a sentence, or what the disk says
 */
export async function putPictures(from: OpenExport, folder: Folder): Promise<void> {
  await ensureFolder(folder.files, folder.path);
  for (const name of from.pictures) await writeInto(folder, name, await readPicture(from, name));
  await folder.files.syncDirectory(folder.path);
}
