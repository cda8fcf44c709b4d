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
import { isDeep } from "./is-deep.ts";
import { type OpenExport, readAll } from "./open-export.ts";

/** A whole archive that has been looked through, to the last byte. */
export type Checked = {
  readonly record: BenchRecord;
  /** Its archived runs, read again from the file. */
  archives(): Archives;
};

/**
 * Looks through everything in an archive before anything is taken: sums, shapes, and that each run
 * the bench counts on is there once.
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
  for (const name of from.pictures) await readPicture(from, name);
  return {
    record,
    archives: async function* () {
      yield* runsIn(await from.stream(RUNS), () => undefined);
    },
  };
}

/** A picture of it, whole. */
export async function readPicture(from: OpenExport, name: string): Promise<Buffer> {
  const bytes = await readAll(await from.stream(`pictures/${name}`)).catch(failed);
  if (createHash("sha256").update(bytes).digest("hex") !== from.manifest.pictures[name]) {
    throw spoilt(`picture ${name}`);
  }
  return bytes;
}

async function readRecord(from: OpenExport): Promise<BenchRecord> {
  const bytes = await readAll(await from.stream(BENCH)).catch(failed);
  if (createHash("sha256").update(bytes).digest("hex") !== from.manifest.sha256.bench) {
    throw spoilt("bench");
  }
  const parsed = recordSchema.safeParse(migrated(parse(bytes.toString(), "bench")));
  if (parsed.success) return parsed.data;
  const place = parsed.error.issues[0]?.path.join(".") ?? "";
  throw new ExportError(`The bench in that archive is not one (at "${place}").`);
}

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
  const value = parse(line, "runs");
  if (typeof value !== "object" || value === null || !("run" in value) || !("id" in value)) {
    throw new ExportError("A line of the runs in that archive holds no run.");
  }
  const { id, run } = value;
  const parsed = runSchema.safeParse(run);
  if (typeof id !== "string" || !parsed.success || parsed.data.id !== id) {
    throw new ExportError("A run in that archive does not hold what a run must hold.");
  }
  checkPlain(run, id);
  return [id, run];
}

function parse(text: string, what: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new ExportError(`The ${what} in that archive cannot be read.`);
  }
  if (isDeep(value)) throw new ExportError(`The ${what} in that archive is nested without end.`);
  return value;
}

const spoilt = (what: string): ExportError =>
  new ExportError(
    `The ${what} in that archive is not what was put into it: it was altered or damaged.`,
  );

function failed(error: unknown): never {
  if (error instanceof ExportError) throw error;
  throw new ExportError("That archive is damaged or cut short. Copy it again.", error);
}
