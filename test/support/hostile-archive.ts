import { createHash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { ZipFile } from "yazl";

const sum = (content: string | Buffer): string =>
  createHash("sha256").update(content).digest("hex");

export type Made = {
  readonly bench: string;
  readonly runs?: string;
  /** By name within pictures/. */
  readonly pictures?: ReadonlyMap<string, Buffer>;
  /** What its first page says otherwise. */
  readonly first?: object;
};

/** An archive whose sums are all right, whatever is in it: made by somebody who knows how. */
export async function archiveOf(
  path: string,
  { bench, runs = "", pictures = new Map(), first = {} }: Made,
): Promise<void> {
  const manifest = {
    schema: "wetside-export",
    version: 1,
    made: "2026-11-28T19:30:00Z",
    bench: "home",
    counts: { runs: 0, archived: 0, bottles: 0, sheets: 0, rolls: 0, reminders: 0, pictures: 0 },
    missing: [],
    sha256: { bench: sum(bench), runs: sum(runs) },
    pictures: Object.fromEntries([...pictures].map(([name, bytes]) => [name, sum(bytes)])),
    ...first,
  };
  const zip = new ZipFile();
  // Stored and not packed, so that it is no bomb by its ratio.
  const plain = { compress: false };
  zip.addBuffer(Buffer.from(bench), "bench.json", plain);
  zip.addBuffer(Buffer.from(runs), "runs.jsonl", plain);
  for (const [name, bytes] of pictures) zip.addBuffer(bytes, `pictures/${name}`, plain);
  zip.addBuffer(Buffer.from(JSON.stringify(manifest)), "wetside.json", plain);
  zip.end();
  await pipeline(Readable.from(zip.outputStream), createWriteStream(path));
}
