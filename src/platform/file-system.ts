import * as fs from "node:fs/promises";
import { join } from "node:path";

/** A file being written. Everything goes to its end. */
export type OpenFile = {
  /** Returns how many bytes were taken, which may be fewer than given. */
  write(bytes: Uint8Array): Promise<number>;
  /** Resolves once the content would survive a power cut. */
  sync(): Promise<void>;
  /** Cuts the file back to a length. */
  truncate(length: number): Promise<void>;
  close(): Promise<void>;
};

/** The few file operations the store needs; failures carry the system's `code`. */
export type FileSystem = {
  /** Undefined when there is no such file. */
  read(path: string): Promise<Uint8Array | undefined>;
  /** Names in a folder; none when it does not exist. */
  list(path: string): Promise<readonly string[]>;
  /** A new, empty file, in place of any old one. */
  create(path: string): Promise<OpenFile>;
  /** A file that exists, to go on at its end. */
  append(path: string): Promise<OpenFile>;
  /** For its owner alone. False when it exists already; the folder above must exist. */
  makeDirectory(path: string): Promise<boolean>;
  rename(from: string, to: string): Promise<void>;
  remove(path: string): Promise<void>;
  /** A folder with all that is in it; nothing happens where there is none. */
  removeTree(path: string): Promise<void>;
  /** Makes the names in a folder survive a power cut. */
  syncDirectory(path: string): Promise<void>;
};

const codeOf = (error: unknown): unknown =>
  error instanceof Error && "code" in error ? error.code : undefined;

async function unless<T, U>(code: string, attempt: Promise<T>, otherwise: U): Promise<T | U> {
  try {
    return await attempt;
  } catch (error) {
    if (codeOf(error) === code) return otherwise;
    throw error;
  }
}

const asOpenFile = (handle: fs.FileHandle): OpenFile => ({
  write: async (bytes) => (await handle.write(bytes)).bytesWritten,
  sync: () => handle.datasync(),
  truncate: (length) => handle.truncate(length),
  close: () => handle.close(),
});

async function syncDirectory(path: string): Promise<void> {
  // Windows has no such call and keeps names in order by itself.
  if (process.platform === "win32") return;
  const handle = await fs.open(path, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** So many files are removed at once: all of a large folder together would hold up the rest. */
const AT_ONCE = 64;

async function removeTree(path: string): Promise<void> {
  const entries = await unless("ENOENT", fs.readdir(path, { withFileTypes: true }), []);
  for (let from = 0; from < entries.length; from += AT_ONCE) {
    const removals = entries.slice(from, from + AT_ONCE).map((entry) => {
      const inner = join(path, entry.name);
      return entry.isDirectory()
        ? removeTree(inner)
        : unless("ENOENT", fs.unlink(inner), undefined);
    });
    await Promise.all(removals);
  }
  await fs.rm(path, { recursive: true, force: true });
}

export const nodeFileSystem: FileSystem = {
  read: (path) => unless("ENOENT", fs.readFile(path), undefined),
  list: (path) => unless("ENOENT", fs.readdir(path), []),
  create: async (path) => {
    await unless("ENOENT", fs.rm(path), undefined);
    return asOpenFile(await fs.open(path, "ax", 0o600));
  },
  append: async (path) =>
    asOpenFile(await fs.open(path, fs.constants.O_APPEND | fs.constants.O_WRONLY)),
  makeDirectory: async (path) =>
    unless(
      "EEXIST",
      fs.mkdir(path, 0o700).then(() => true),
      false,
    ),
  rename: (from, to) => fs.rename(from, to),
  remove: (path) => unless("ENOENT", fs.rm(path), undefined),
  removeTree,
  syncDirectory,
};
