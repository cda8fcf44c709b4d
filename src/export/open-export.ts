import type { Readable } from "node:stream";
import type { Entry, ZipFile } from "yauzl";
import { closeFile, openRegular } from "../platform/open-regular.ts";
import {
  BENCH,
  LIMITS,
  MANIFEST,
  type Manifest,
  manifestSchema,
  PICTURE,
  RUNS,
} from "./contents.ts";
import { ExportError } from "./export-error.ts";
import { weighJson } from "./weigh-json.ts";

/** An archive whose outline has been checked; its contents have not. */
export type OpenExport = {
  readonly manifest: Manifest;
  /** What all of it unpacks to; the file cannot say less than it does. */
  readonly bytes: number;
  /** Names of pictures, within pictures/. */
  readonly pictures: readonly string[];
  /** A file of it, unpacked as it is read; one that is not what it says it is ends in an error. */
  stream(name: string): Promise<Readable>;
  close(): void;
};

/**
 * Opens an archive somebody hands us. Nothing in it is believed: names that are not ours, more
 * than a bench can hold, and packing no honest file has are refused before anything is unpacked.
 *
 * @throws ExportError with a sentence
 */
export async function openExport(path: string): Promise<OpenExport> {
  const { fromFdPromise } = await import("yauzl");
  const file = await openRegular(path).catch((error: unknown) => {
    throw new ExportError(notWhole(error), error);
  });
  if (file === undefined) throw new ExportError("That is no plain file, so I do not look into it.");
  let zip: ZipFile;
  try {
    zip = await fromFdPromise(file, {
      autoClose: false,
      lazyEntries: true,
      decodeStrings: true,
      validateEntrySizes: true,
      strictFileNames: true,
    });
  } catch (error) {
    await closeFile(file);
    throw new ExportError(notWhole(error), error);
  }
  try {
    const entries = await entriesOf(zip);
    const stream = (name: string): Promise<Readable> => {
      const entry = entries.get(name);
      if (entry === undefined) throw new ExportError(`That archive has no ${name} in it.`);
      return zip.openReadStreamPromise(entry).catch((error: unknown) => {
        throw new ExportError(notWhole(error), error);
      });
    };
    const manifest = readManifest(await readAll(await stream(MANIFEST)));
    const pictures = [...entries.keys()].flatMap((name) => PICTURE.exec(name)?.[1] ?? []);
    if (!entries.has(BENCH) || !entries.has(RUNS)) {
      throw new ExportError(
        "That archive lacks the bench or its runs. I left everything as it is.",
      );
    }
    const listed = Object.keys(manifest.pictures).toSorted().join();
    if (listed !== pictures.toSorted().join()) {
      throw new ExportError("The pictures in that archive are not those it says it has.");
    }
    const sizes = [...entries.values()].map(({ uncompressedSize }) => uncompressedSize);
    const bytes = sizes.reduce((sum, size) => sum + size, 0);
    return { manifest, bytes, pictures, stream, close: () => zip.close() };
  } catch (error) {
    zip.close();
    throw error instanceof ExportError ? error : new ExportError(notWhole(error), error);
  }
}

const notWhole = (error: unknown): string => {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  if (code === "ENOENT") return "There is no archive of that name in the folder exports.";
  const message = error instanceof Error ? error.message : "";
  if (/relative path|absolute path|characters in fileName|backslash/.test(message)) {
    return "That archive holds a file that would leave its folder. No export of mine does; I take nothing from it.";
  }
  return "That archive is damaged or cut short. Copy it again from where it was made.";
};

/** Every file of it by name, each a name that an export has and of a size that it can have. */
async function entriesOf(zip: ZipFile): Promise<ReadonlyMap<string, Entry>> {
  if (zip.entryCount > LIMITS.pictureFiles + 3) {
    throw new ExportError("That archive has more files in it than any bench has pictures.");
  }
  const entries = new Map<string, Entry>();
  let pictures = 0;
  for await (const entry of zip.eachEntry()) {
    const { fileName: name, uncompressedSize: size, compressedSize: packed } = entry;
    const most = mostOf(name);
    if (most === undefined || entries.has(name)) {
      throw new ExportError(
        `That archive holds "${name.slice(0, 60)}", which no export of mine has ${entries.has(name) ? "twice" : "in it"}. I take nothing from it.`,
      );
    }
    if (PICTURE.test(name)) pictures += size;
    const bomb = size > 1_000_000 && size > packed * LIMITS.ratio;
    if (size > most || pictures > LIMITS.pictures || bomb) {
      throw new ExportError(
        `That archive would unpack to ${Math.round(size / 1e6)} MB or more, which no bench holds. I take nothing from it.`,
      );
    }
    entries.set(name, entry);
  }
  return entries;
}

function mostOf(name: string): number | undefined {
  switch (name) {
    case MANIFEST:
      return LIMITS.manifest;
    case BENCH:
      return LIMITS.bench;
    case RUNS:
      return LIMITS.runs;
    default:
      return PICTURE.test(name) ? LIMITS.picture : undefined;
  }
}

/** What is within its limits as a file and still more than we take. */
export const larger = (what = "It holds more than any bench of mine does"): ExportError =>
  new ExportError(`That archive is larger than I can restore here. ${what}. Nothing was changed.`);

export async function readAll(stream: Readable): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for await (const piece of stream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}

function readManifest(bytes: Buffer): Manifest {
  if (weighJson(bytes).values > LIMITS.manifestValues) throw larger();
  let value: unknown;
  try {
    value = JSON.parse(bytes.toString());
  } catch {
    throw new ExportError("That archive is damaged: its first page cannot be read.");
  }
  const version = (value as { version?: unknown } | null)?.version;
  if (typeof version === "number" && version > 1) {
    throw new ExportError("That archive was made by a newer Wetside. Start that one to take it.");
  }
  const parsed = manifestSchema.safeParse(value);
  if (!parsed.success) throw new ExportError("That is no export of a bench.");
  return parsed.data;
}
