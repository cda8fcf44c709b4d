import { dirname, join } from "node:path";
import type { FileSystem, OpenFile } from "../platform/file-system.ts";

/** One folder of the store; `shown` is how it is named to the user, from the data folder on. */
export type Folder = { readonly files: FileSystem; readonly path: string; readonly shown: string };

export const within = (folder: Folder, name: string): Folder => ({
  files: folder.files,
  path: join(folder.path, name),
  shown: folder.shown === "" ? name : `${folder.shown}/${name}`,
});

/**
 * Makes a folder and those above it, each safe on disk before the next. One that is there already
 * is made safe as well: it may stem from an attempt that failed half way.
 */
export async function ensureFolder(files: FileSystem, path: string): Promise<void> {
  const above = dirname(path);
  let made: boolean;
  try {
    made = await files.makeDirectory(path);
  } catch (error) {
    if (!hasCode(error, "ENOENT") || above === path) throw error;
    await ensureFolder(files, above);
    made = await files.makeDirectory(path);
  }
  try {
    await files.syncDirectory(above);
  } catch (error) {
    // A folder given to us may lie in one that we may not even read.
    if (made || !hasCode(error, "EACCES", "EPERM")) throw error;
  }
}

const hasCode = (error: unknown, ...codes: readonly string[]): boolean =>
  error instanceof Error && "code" in error && codes.includes(String(error.code));

/** Writes all of `bytes`; a disk that takes nothing more and says nothing counts as an error. */
export async function writeAll(file: OpenFile, bytes: Uint8Array): Promise<void> {
  let rest = bytes;
  while (rest.length > 0) {
    const taken = await file.write(rest);
    if (taken <= 0) throw Object.assign(new Error("Nothing was written."), { code: "ENOSPC" });
    rest = rest.subarray(taken);
  }
}

const draftOf = (name: string): string => `${name}.new`;

/** Writes a whole file under its draft name; `publish` gives it its own. */
export async function draft(folder: Folder, name: string, content: Uint8Array): Promise<void> {
  await writeInto(folder, draftOf(name), content);
}

/** From here on the file is there, whole, also after a power cut. */
export async function publish(folder: Folder, name: string): Promise<void> {
  await folder.files.rename(join(folder.path, draftOf(name)), join(folder.path, name));
  await folder.files.syncDirectory(folder.path);
}

/** Takes an unfinished draft away; one that cannot be removed does no harm. */
export async function dropDraft(folder: Folder, name: string): Promise<void> {
  await folder.files.remove(join(folder.path, draftOf(name))).catch(() => undefined);
}

/** A file in a folder that nobody reads yet: its content is safe, its name once the folder is. */
export async function writeInto(
  folder: Folder,
  name: string,
  content: string | Uint8Array,
): Promise<void> {
  const file = await folder.files.create(join(folder.path, name));
  try {
    await writeAll(file, typeof content === "string" ? Buffer.from(content) : content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Puts a whole file in its place, or leaves what was there. */
export async function writeWhole(folder: Folder, name: string, text: string): Promise<void> {
  try {
    await draft(folder, name, Buffer.from(text));
  } catch (error) {
    await dropDraft(folder, name);
    throw error;
  }
  await publish(folder, name);
}
