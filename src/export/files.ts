import { lstat, mkdir, readdir, rename, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { ExportFile } from "../commands/work.ts";
import { nodeFileSystem } from "../platform/file-system.ts";
import { readRegular } from "../platform/open-regular.ts";
import { type Manifest, PICTURE } from "./contents.ts";
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
  ): Promise<{
    readonly manifest: Manifest;
    readonly bytes: number;
    /** Pictures that a restore would not take, and that are not in it. */
    readonly leftOut: number;
  }>;
  open(name: string): Promise<OpenExport>;
  /** Where an archive of this name lies. @throws ExportError for a name that leads elsewhere */
  pathOf(name: string): string;
  /** All of an archive, to hand it on. */
  read(name: string): Promise<Uint8Array>;
  /** An archive that was handed in, in the place of the one before it. @returns its name in `exports` */
  receive(bytes: Uint8Array): Promise<string>;
  /** Drops it again. */
  dropReceived(): Promise<void>;
  /** Where pictures may be put together, for `takePictures`, where there is no better place. */
  readonly staging: string;
  /**
   * Puts a folder of pictures in the place of all that are there; where it is not, only ends what
   * was begun. Whenever the power goes, one of the two folders is whole, and a call at the next
   * start goes on with it.
   */
  takePictures(from: string): Promise<void>;
  /** Removes archives, pictures and written summaries, all of them; says how many there were. */
  clear(): Promise<{ readonly exports: number; readonly pictures: number }>;
};

/** Where the pictures of an archive wait, within the folder of the bench they belong to. */
export const PICTURES = "pictures";

/** A name that leads nowhere else; browsers call the second of a name "home (1).zip". */
const NAME = /^[\p{L}\p{N}][^\p{C}\p{Zl}\p{Zp}/\\\uFFFD]{0,120}\.zip$/iu;
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
  staging: "",
  takePictures: async () => undefined,
  clear: async () => ({ exports: 0, pictures: 0 }),
};

/** @param data  the folder of one bench's files, which no other bench uses */
export function filesIn(data: string): Files {
  const exportsAt = join(data, "exports");
  const picturesAt = join(data, "pictures");
  const staging = join(data, "pictures.incoming");
  const outgoing = join(data, "pictures.outgoing");
  const recordsAt = join(data, "records");
  const list = (path: string): Promise<string[]> => readdir(path).catch(() => []);
  /** Names of plain files, the newest first; links, pipes and folders are none of ours. */
  const newest = async (path: string, isMeant: (name: string) => boolean) => {
    const files = (await list(path)).filter(isMeant).map(async (name) => {
      const found = await lstat(join(path, name)).catch(() => undefined);
      return found?.isFile() === true ? { name, bytes: found.size, at: found.mtimeMs } : [];
    });
    return (await Promise.all(files)).flat().toSorted((a, b) => b.at - a.at);
  };
  const pathOf = (name: string): string => {
    if (!NAME.test(name)) {
      throw new ExportError("Give the name of an archive in the folder exports, ending in .zip.");
    }
    return join(exportsAt, name);
  };
  return {
    async exports() {
      const found = await newest(exportsAt, (name) => NAME.test(name));
      const looked: ExportFile[] = [];
      // One at a time: twenty first pages made to be large are no more than one.
      for (const { name, bytes } of found.slice(0, LOOKED_AT)) {
        looked.push({ name, bytes, holds: await look(pathOf(name)) });
      }
      return looked;
    },
    async write(name, content, isOwn, archive) {
      const path = pathOf(name);
      const drawn = await newest(
        picturesAt,
        (one) => PICTURE.test(`pictures/${one}`) && isOwn(one),
      );
      const pictures = new Map(drawn.map((one) => [one.name, join(picturesAt, one.name)]));
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
      const leftOut = pictures.size - manifest.counts.pictures;
      return { manifest, bytes: (await stat(path)).size, leftOut };
    },
    async read(name) {
      const bytes = await readRegular(pathOf(name), Number.MAX_SAFE_INTEGER);
      if (bytes === undefined) throw new ExportError("There is no archive of that name any more.");
      return bytes;
    },
    open: async (name) => opened(pathOf(name)),
    pathOf,
    async receive(bytes) {
      await put(exportsAt, RECEIVED, bytes);
      return RECEIVED;
    },
    dropReceived: () => rm(pathOf(RECEIVED), { force: true }),
    staging,
    async takePictures(from) {
      const { rename: move, removeTree, syncDirectory } = nodeFileSystem;
      await removeTree(outgoing);
      if (from !== staging) await removeTree(staging);
      const waits = await lstat(from).then((found) => found.isDirectory(), missing);
      if (!waits) return;
      await mkdir(data, { recursive: true, mode: 0o700 });
      await move(picturesAt, outgoing).catch(missing);
      await move(from, picturesAt);
      await syncDirectory(data);
      await removeTree(outgoing);
    },
    async clear() {
      const gone = {
        exports: (await list(exportsAt)).length,
        pictures: (await list(picturesAt)).length + (await list(recordsAt)).length,
      };
      for (const path of [exportsAt, picturesAt, recordsAt, staging, outgoing]) {
        await rm(path, { recursive: true, force: true });
      }
      return gone;
    },
  };
}

function missing(error: unknown): false {
  if (error instanceof Error && "code" in error && error.code === "ENOENT") return false;
  throw error;
}

/** A file that has its name only once it is whole. */
async function put(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, name);
  await rm(`${path}.part`, { force: true });
  // A file of ours and nothing that was there: a pipe would take it and never end.
  await writeFile(`${path}.part`, bytes, { mode: 0o600, flag: "wx" });
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
