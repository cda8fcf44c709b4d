import { createHash } from "node:crypto";
import type { Readable } from "node:stream";
import { type BenchRecord, recordSchema } from "../conversation/record.ts";
import { runSchema } from "../domain/session/run.ts";
import { migrate } from "../store/migrations/migrate.ts";
import { checkPlain } from "../store/plain.ts";
import type { Archives } from "../store/store.ts";
import { StoreError } from "../store/store-error.ts";
import { BENCH, LIMITS, RUNS } from "./contents.ts";
import { ExportError } from "./export-error.ts";
import { isPicture } from "./is-picture.ts";
import { larger, type OpenExport, readAll } from "./open-export.ts";
import { tooMuch } from "./too-much.ts";
import { unknownKey } from "./unknown-key.ts";
import { weighJson } from "./weigh-json.ts";

/** An archive whose bench and runs have been looked through, to the last byte. */
export type Checked = {
  readonly record: BenchRecord;
  /** Its archived runs, read again from the file. */
  archives(): Archives;
};

/**
 * Looks through the bench and the runs in an archive before anything is taken: sums, shapes, and
 * that each run the bench counts on is there once.
 *
 * @throws ExportError with a sentence; nothing has been changed then
 */
export async function checkExport(from: OpenExport): Promise<Checked> {
  const record = await readRecord(from);
  const wanted = new Set(record.bench.pastRuns.map(({ id }) => id));
  for (const id of from.manifest.missing) wanted.delete(id);
  const hash = createHash("sha256");
  for await (const [id] of runsIn(await from.stream(RUNS), (piece) => hash.update(piece))) {
    if (!wanted.delete(id)) throw new ExportError(`The run ${id} in that archive fits no bench.`);
  }
  if (hash.digest("hex") !== from.manifest.sha256.runs) throw spoilt("runs");
  if (wanted.size > 0) throw new ExportError(`That archive lacks ${wanted.size} of its runs.`);
  return {
    record,
    archives: async function* () {
      yield* runsIn(await from.stream(RUNS), () => undefined);
    },
  };
}

/** A picture of it, whole, and a picture indeed. */
export async function readPicture(from: OpenExport, name: string): Promise<Buffer> {
  const bytes = await readAll(await from.stream(`pictures/${name}`)).catch(failed);
  if (createHash("sha256").update(bytes).digest("hex") !== from.manifest.pictures[name]) {
    throw spoilt(`picture ${name}`);
  }
  if (!isPicture(name, bytes)) {
    throw new ExportError(`The file ${name} in that archive is no picture of mine.`);
  }
  return bytes;
}

async function readRecord(from: OpenExport): Promise<BenchRecord> {
  const bytes = await readAll(await from.stream(BENCH)).catch(failed);
  if (createHash("sha256").update(bytes).digest("hex") !== from.manifest.sha256.bench) {
    throw spoilt("bench");
  }
  const stored = migrated(parse(bytes, "bench", LIMITS.benchValues));
  const parsed = recordSchema.safeParse(stored);
  if (!parsed.success) {
    const place = parsed.error.issues[0]?.path.join(".") ?? "";
    throw new ExportError(`The bench in that archive is not one (at "${place.slice(0, 80)}").`);
  }
  const strange = unknownKey(stored, parsed.data);
  if (strange !== undefined) throw unknown(strange);
  const beyond = tooMuch(parsed.data);
  if (beyond !== undefined) throw larger(`It holds ${beyond}`);
  return parsed.data;
}

const unknown = (key: string): ExportError =>
  new ExportError(
    `That archive holds "${key.slice(0, 80)}", which no bench of mine has: a newer Wetside made it, or it was altered.`,
  );

function migrated(stored: unknown): unknown {
  try {
    return migrate(stored).record;
  } catch (error) {
    if (error instanceof StoreError) throw new ExportError(error.message, error);
    throw error;
  }
}

/** Archived runs line by line, each checked. */
async function* runsIn(
  stream: Readable,
  see: (piece: Buffer) => void,
): AsyncGenerator<readonly [string, unknown]> {
  let rest = "";
  const decoder = new TextDecoder("utf-8", { fatal: true });
  try {
    for await (const piece of stream) {
      see(piece as Buffer);
      rest += decoder.decode(piece as Buffer, { stream: true });
      const lines = rest.split("\n");
      rest = lines.pop() ?? "";
      if (rest.length > LIMITS.run) throw new ExportError("A run in that archive is far too long.");
      for (const line of lines) yield runOf(line);
    }
  } catch (error) {
    failed(error);
  }
  if (rest !== "") throw new ExportError("The runs in that archive are cut short.");
}

function runOf(line: string): readonly [string, unknown] {
  const value = parse(Buffer.from(line), "runs", LIMITS.runValues);
  if (typeof value !== "object" || value === null || !("run" in value) || !("id" in value)) {
    throw new ExportError("A line of the runs in that archive holds no run.");
  }
  const { id, run } = value;
  const parsed = runSchema.safeParse(run);
  if (typeof id !== "string" || !parsed.success || parsed.data.id !== id) {
    throw new ExportError("A run in that archive does not hold what a run must hold.");
  }
  const strange = unknownKey(run, parsed.data);
  if (strange !== undefined) throw unknown(`${id}.${strange}`);
  checkPlain(run, id);
  return [id, run];
}

/** JSON, once it is known not to be more than it may be. */
function parse(bytes: Buffer, what: string, most: number): unknown {
  const { values, depth } = weighJson(bytes);
  if (values > most) throw larger();
  if (depth > LIMITS.depth) {
    throw new ExportError(`The ${what} in that archive is nested without end.`);
  }
  try {
    return JSON.parse(bytes.toString());
  } catch {
    throw new ExportError(`The ${what} in that archive cannot be read.`);
  }
}

const spoilt = (what: string): ExportError =>
  new ExportError(
    `The ${what} in that archive is not what was put into it: it was altered or damaged.`,
  );

function failed(error: unknown): never {
  if (error instanceof ExportError) throw error;
  throw new ExportError("That archive is damaged or cut short. Copy it again.", error);
}
