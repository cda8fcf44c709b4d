import { createHash, type Hash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { mkdir, open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { readRegular } from "../platform/open-regular.ts";
import { BENCH, LIMITS, MANIFEST, type Manifest, RUNS } from "./contents.ts";
import { ExportError } from "./export-error.ts";
import { isPicture } from "./is-picture.ts";
import type { Outline } from "./outline.ts";

export type ToExport = {
  readonly outline: Outline;
  /** ISO instant. */
  readonly made: string;
  /** An archived run as it is stored; undefined where it cannot be read. */
  readonly recall: (id: string) => Promise<unknown>;
  /** Paths of pictures by their name, the newest first: what a restore would not take is left out. */
  readonly pictures: ReadonlyMap<string, string>;
  readonly progress: (done: number, of: number) => void;
};

/** So many run files are read ahead. */
const AHEAD = 32;
/** Progress is told after each so many runs. */
const STEP = 500;

/**
 * Writes all a bench holds into one zip file. Packing is done away from the thread that gives the
 * cues, and between files that one has its turn. The file has its name only once it is whole.
 */
export async function writeExport(path: string, content: ToExport): Promise<Manifest> {
  // Loaded when first wanted: a bench starts without it.
  const { ZipFile } = await import("yazl");
  const draft = `${path}.part`;
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  await rm(draft, { force: true }).catch(() => undefined);
  const zip = new ZipFile();
  const output = Readable.from(zip.outputStream);
  try {
    // A file of ours and nothing that was there: a pipe would take it and never end.
    const written = pipeline(output, createWriteStream(draft, { mode: 0o600, flags: "wx" }));
    const manifest = fill(zip, content);
    // Whichever fails first ends both.
    const [made] = await Promise.all([manifest, written]);
    const file = await open(draft, "r+");
    await file.sync().finally(() => file.close());
    await rename(draft, path);
    return made;
  } catch (error) {
    output.destroy();
    // A draft that cannot be taken away does no harm; why there is no archive is what is told.
    await rm(draft, { force: true }).catch(() => undefined);
    throw error instanceof ExportError ? error : new ExportError(whyNot(error), error);
  }
}

async function fill(
  zip: InstanceType<typeof import("yazl").ZipFile>,
  { outline, made, recall, pictures, progress }: ToExport,
): Promise<Manifest> {
  const { bench, ids, counts } = outline;
  const text = Buffer.from(outline.texts.join(""));
  zip.addBuffer(text, BENCH, { compressionLevel: 3 });
  const missing: string[] = [];
  const hash = createHash("sha256");
  const lines = hashed(runLines(ids, recall, missing, progress), hash);
  const runs = Readable.from(lines, { objectMode: false });
  const through = new Promise<void>((done, failed) =>
    runs.once("close", done).once("error", failed),
  );
  zip.addReadStream(runs, RUNS, { compressionLevel: 3 });
  const hashes: Record<string, string> = {};
  let room: number = LIMITS.pictures;
  for (const [name, from] of pictures) {
    if (Object.keys(hashes).length === LIMITS.pictureFiles) break;
    const bytes = await readRegular(from, Math.min(LIMITS.picture, room)).catch(gone);
    // Only what a restore takes goes in.
    if (bytes === undefined || !isPicture(name, bytes)) continue;
    room -= bytes.length;
    hashes[name] = createHash("sha256").update(bytes).digest("hex");
    // A picture is packed already.
    zip.addBuffer(bytes, `pictures/${name}`, { compress: name.endsWith(".svg") });
  }
  await through;
  const manifest: Manifest = {
    schema: "wetside-export",
    version: 1,
    made,
    bench,
    counts: {
      ...counts,
      archived: ids.length - missing.length,
      pictures: Object.keys(hashes).length,
    },
    missing,
    sha256: { bench: createHash("sha256").update(text).digest("hex"), runs: hash.digest("hex") },
    pictures: hashes,
  };
  zip.addBuffer(Buffer.from(`${JSON.stringify(manifest, undefined, 2)}\n`), MANIFEST);
  zip.end();
  return manifest;
}

/** A picture that has gone meanwhile is none. */
function gone(error: unknown): undefined {
  if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
  throw error;
}

/** One archived run a line; what cannot be read is stepped over and noted. */
async function* runLines(
  ids: readonly string[],
  recall: ToExport["recall"],
  missing: string[],
  progress: ToExport["progress"],
): AsyncGenerator<string> {
  for (let from = 0; from < ids.length; from += AHEAD) {
    const group = ids.slice(from, from + AHEAD);
    const records = await Promise.all(group.map((id) => recall(id)));
    let lines = "";
    for (const [index, run] of records.entries()) {
      const id = group[index] ?? "";
      if (run === undefined) missing.push(id);
      else lines += `${JSON.stringify({ id, run })}\n`;
    }
    const done = from + group.length;
    if (Math.floor(done / STEP) > Math.floor(from / STEP)) progress(done, ids.length);
    if (lines !== "") yield lines;
    await new Promise((soon) => setImmediate(soon));
  }
}

async function* hashed(texts: AsyncIterable<string>, hash: Hash): AsyncGenerator<Buffer> {
  for await (const text of texts) {
    const bytes = Buffer.from(text);
    hash.update(bytes);
    yield bytes;
  }
}

/** In words, without a path of this machine. */
function whyNot(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  switch (code) {
    case "ENOSPC":
    case "EDQUOT":
      return "The disk is full, so I could not write the archive. Free some space and try again.";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "I am not allowed to write in the data folder, so there is no archive.";
    default:
      return `The archive could not be written${code === "" ? "" : ` (${code})`}. Try again.`;
  }
}
