import { parentPort, workerData } from "node:worker_threads";
import { nodeFileSystem } from "../platform/file-system.ts";
import { readArchived } from "../store/read-archived.ts";
import { StoreError } from "../store/store-error.ts";
import type { Apart, Told } from "./export-apart.ts";
import { ExportError } from "./export-error.ts";
import { recallOrNothing } from "./recall-or-nothing.ts";
import { writeExport } from "./write-export.ts";

const { path, archive, pictures, ...content } = workerData as Apart;
const tell = (told: Told): void => parentPort?.postMessage(told);
const folder = { files: nodeFileSystem, path: archive, shown: "archive" };

try {
  const manifest = await writeExport(path, {
    ...content,
    pictures: new Map(pictures),
    recall: (id) => recallOrNothing(() => readArchived(folder, id)),
    progress: (done, of) => tell({ kind: "progress", done, of }),
  });
  tell({ kind: "made", manifest });
} catch (error) {
  if (!(error instanceof ExportError || error instanceof StoreError)) throw error;
  tell({ kind: "refused", sentence: error.message });
}
