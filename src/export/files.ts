import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { ExportFile } from "../commands/work.ts";
import type { Manifest } from "./contents.ts";
import { ExportError } from "./export-error.ts";
import type { OpenExport } from "./open-export.ts";
import type { ToExport } from "./write-export.ts";

/** What a bench may do with files beside its own: archives in `exports`, drawings in `pictures`. */
export type Files = {
  /** The newest first. */
  exports(): Promise<readonly ExportFile[]>;
  write(
    name: string,
    content: Omit<ToExport, "pictures">,
    isOwn: (picture: string) => boolean,
    /** The folder in which archived runs lie, where they do. */
    archive?: string,
  ): Promise<{ readonly manifest: Manifest; readonly bytes: number }>;
  open(name: string): Promise<OpenExport>;
  /** Where an archive of this name lies. @throws ExportError for a name that leads elsewhere */
  pathOf(name: string): string;
  /** All of an archive, to hand it on. */
  read(name: string): Promise<Uint8Array>;
  /** An archive that was handed in, in the place of the one before it. @returns its name in `exports` */
  receive(bytes: Uint8Array): Promise<string>;
  /** Drops it again. */
  dropReceived(): Promise<void>;
  putPicture(name: string, bytes: Uint8Array): Promise<void>;
  /** Removes archives, pictures and written summaries, all of them; says how many there were. */
  clear(): Promise<{ readonly exports: number; readonly pictures: number }>;
};

/** A name that leads nowhere else. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,120}\.zip$/;
/** What was handed in is called so, whatever it was called before. */
const RECEIVED = "received.zip";
/** So many archived runs are packed in less time than a thread takes to begin. */
const FEW = 50;
/** Archives looked at when asked what there is. */
const LOOKED_AT = 20;

const noPath = (): never => {
  throw new ExportError("This bench has no folder for archives.");
};
const nowhere = async (): Promise<never> => noPath();

/** For a bench that is kept in memory alone. */
export const noFiles: Files = {
  exports: async () => [],
  write: nowhere,
  open: nowhere,
  pathOf: noPath,
  read: nowhere,
  receive: nowhere,
  dropReceived: async () => undefined,
  putPicture: nowhere,
  clear: async () => ({ exports: 0, pictures: 0 }),
};

/** @param data  the folder of one bench's files, which no other bench uses */
export function filesIn(data: string): Files {
  const exportsAt = join(data, "exports");
  const picturesAt = join(data, "pictures");
  const recordsAt = join(data, "records");
  const list = (path: string): Promise<string[]> => readdir(path).catch(() => []);
  const pathOf = (name: string): string => {
    if (!NAME.test(name)) {
      throw new ExportError("Give the name of an archive in the folder exports, ending in .zip.");
    }
    return join(exportsAt, name);
  };
  return {
    async exports() {
      const names = (await list(exportsAt)).filter((name) => NAME.test(name));
      const found = await Promise.all(
        names.map(async (name) => ({ name, ...(await stat(join(exportsAt, name))) })),
      );
      const newest = found.toSorted((a, b) => b.mtimeMs - a.mtimeMs).slice(0, LOOKED_AT);
      return Promise.all(
        newest.map(async ({ name, size }) => ({
          name,
          bytes: size,
          holds: await look(pathOf(name)),
        })),
      );
    },
    async write(name, content, isOwn, archive) {
      const path = pathOf(name);
      const names = (await list(picturesAt)).filter(
        (one) => /\.(png|svg)$/.test(one) && isOwn(one),
      );
      const pictures = new Map(names.map((one) => [one, join(picturesAt, one)]));
      const { outline, made, progress } = content;
      let manifest: Manifest;
      if (archive !== undefined && outline.ids.length > FEW) {
        const { exportApart } = await import("./export-apart.ts");
        const job = { path, archive, outline, made, pictures: [...pictures] };
        manifest = await exportApart(job, progress);
      } else {
        const { writeExport } = await import("./write-export.ts");
        manifest = await writeExport(path, { ...content, pictures });
      }
      return { manifest, bytes: (await stat(path)).size };
    },
    read: async (name) => readFile(pathOf(name)),
    open: async (name) => opened(pathOf(name)),
    pathOf,
    async receive(bytes) {
      await put(exportsAt, RECEIVED, bytes);
      return RECEIVED;
    },
    dropReceived: () => rm(pathOf(RECEIVED), { force: true }),
    putPicture: (name, bytes) => put(picturesAt, name, bytes),
    async clear() {
      const gone = {
        exports: (await list(exportsAt)).length,
        pictures: (await list(picturesAt)).length + (await list(recordsAt)).length,
      };
      for (const path of [exportsAt, picturesAt, recordsAt]) {
        await rm(path, { recursive: true, force: true });
      }
      return gone;
    },
  };
}

/** A file that has its name only once it is whole. */
async function put(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, name);
  await writeFile(`${path}.part`, bytes, { mode: 0o600 });
  await rename(`${path}.part`, path);
}

/** What reads and writes zip files is loaded when first wanted: a bench starts without it. */
async function opened(path: string): Promise<OpenExport> {
  const { openExport } = await import("./open-export.ts");
  return openExport(path);
}

async function look(path: string): Promise<ExportFile["holds"]> {
  try {
    const from = await opened(path);
    from.close();
    const { bench, made, counts, missing } = from.manifest;
    return { bench, made, counts, missing };
  } catch (error) {
    if (!(error instanceof ExportError)) throw error;
    return { wrong: error.message };
  }
}
