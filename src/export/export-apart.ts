import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Manifest } from "./contents.ts";
import { ExportError } from "./export-error.ts";
import type { Outline } from "./outline.ts";
import type { ToExport } from "./write-export.ts";

/** What the thread is given. */
export type Apart = {
  readonly path: string;
  /** The folder of archived runs. */
  readonly archive: string;
  readonly outline: Outline;
  readonly made: string;
  readonly pictures: readonly (readonly [name: string, path: string])[];
};

/** What it tells. */
export type Told =
  | { readonly kind: "progress"; readonly done: number; readonly of: number }
  | { readonly kind: "made"; readonly manifest: Manifest }
  | { readonly kind: "refused"; readonly sentence: string };

/**
 * An archive of a bench with many runs, made by a thread of its own: thousands of files that are
 * read, checked and packed leave so much behind that tidying up after them would hold the cues up.
 *
 * @throws ExportError with a sentence; there is no archive then
 */
export function exportApart(job: Apart, progress: ToExport["progress"]): Promise<Manifest> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(fileURLToPath(new URL("./export-worker.ts", import.meta.url)), {
      workerData: job,
      execArgv: [],
    });
    worker.on("message", (told: Told) => {
      if (told.kind === "progress") progress(told.done, told.of);
      else if (told.kind === "made") resolve(told.manifest);
      else reject(new ExportError(told.sentence));
    });
    worker.once("error", reject);
    worker.once("exit", (code) => reject(new Error(`making the archive ended with ${code}`)));
  });
}
