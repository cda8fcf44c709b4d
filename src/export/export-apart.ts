import { inThread } from "../platform/in-thread.ts";
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
export const exportApart = (job: Apart, progress: ToExport["progress"]): Promise<Manifest> =>
  inThread<Told, Manifest>({
    module: new URL("./export-worker.ts", import.meta.url),
    given: job,
    what: "making the archive",
    hear: (told) => {
      if (told.kind === "refused") throw new ExportError(told.sentence);
      if (told.kind === "made") return told.manifest;
      progress(told.done, told.of);
      return undefined;
    },
  });
