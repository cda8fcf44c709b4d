import { once } from "node:events";
import { type MessagePort, parentPort, workerData } from "node:worker_threads";
import { ExportError } from "../../export/export-error.ts";
import { openExport } from "../../export/open-export.ts";
import { nodeFileSystem } from "../../platform/file-system.ts";
import type { Standing } from "../../store/bench-log.ts";
import { fillBench } from "../../store/fill-bench.ts";
import { within } from "../../store/folder.ts";
import { JournalAdapter } from "../../store/journal-adapter.ts";
import { readArchived } from "../../store/read-archived.ts";
import { diskError, StoreError } from "../../store/store-error.ts";
import { inSlices } from "../in-slices.ts";
import { type BenchRecord, newRecord, recordSchema } from "../record.ts";
import { fillFromArchive } from "./fill-from-archive.ts";
import { withoutMember } from "./rewrite.ts";
import type { Apart, Job, Told } from "./rewrite-apart.ts";

const { id, zone, present, next: staged, job } = workerData as Apart;
const port = parentPort as MessagePort;
const tell = (told: Told): void => port.postMessage(told);
const options = { schema: recordSchema };
const folderAt = (path: string) => ({ files: nodeFileSystem, path, shown: `benches/${id}` });

type Made = {
  readonly next: BenchRecord;
  readonly standing: Standing;
  readonly lost: number;
};

async function restored({
  path,
  sha256,
}: Extract<Job, { readonly kind: "restore" }>): Promise<Made> {
  const from = await openExport(path);
  const { bench, runs } = from.manifest.sha256;
  if (bench !== sha256.bench || runs !== sha256.runs) {
    throw new ExportError("Another archive has taken its place meanwhile. Say restore again.");
  }
  const { value, standing } = await fillFromArchive(from, id, staged);
  return { next: value, standing, lost: 0 };
}

async function forgotten(who: string): Promise<Made> {
  const folder = folderAt(present);
  const record = await new JournalAdapter(folder, options).read();
  if (record === null) throw new Error("a bench that is written anew is there");
  const archive = within(folder, "archive");
  const { next, archives, lost } = await withoutMember(record, who, (name) =>
    readArchived(archive, name),
  );
  const standing = await fillBench(folderAt(staged), next, archives, options);
  return { next, standing, lost };
}

try {
  const made = await (job.kind === "restore" ? restored(job) : forgotten(job.who));
  const { next, standing, lost } = made;
  for (const changes of inSlices(newRecord(id, zone), next)) {
    const answered = once(port, "message");
    tell({ kind: "changes", changes });
    await answered;
  }
  tell({ kind: "done", standing, lost });
} catch (error) {
  const ours = error instanceof ExportError || error instanceof StoreError;
  if (!ours && !(error instanceof Error && "code" in error)) throw error;
  tell({
    kind: "refused",
    sentence: (ours ? error : diskError(error, "write the bench anew")).message,
  });
}
port.close();
