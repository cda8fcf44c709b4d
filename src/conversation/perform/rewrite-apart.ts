import { setImmediate as nextTurn } from "node:timers/promises";
import { applying, type Change } from "../../domain/changes.ts";
import type { Manifest } from "../../export/contents.ts";
import { ExportError } from "../../export/export-error.ts";
import { inThread } from "../../platform/in-thread.ts";
import type { Standing } from "../../store/bench-log.ts";
import type { Store } from "../../store/store.ts";
import { type BenchRecord, newRecord } from "../record.ts";
import type { Bench } from "./bench.ts";

/** What is to be made of a bench. */
export type Job =
  /** `sha256`: sums of the archive that was looked at, since another may lie there by then. */
  | { readonly kind: "restore"; readonly path: string; readonly sha256: Manifest["sha256"] }
  | { readonly kind: "forget-member"; readonly who: string };

/** What the thread is given: the bench's folder, and the empty one to fill. */
export type Apart = {
  readonly id: string;
  readonly zone: string;
  readonly present: string;
  readonly next: string;
  readonly job: Job;
};

/** What it tells; it goes on after `changes` when it is answered. */
export type Told =
  /** What makes the new record of a new bench of this zone. */
  | { readonly kind: "changes"; readonly changes: readonly Change[] }
  | { readonly kind: "done"; readonly standing: Standing; readonly lost: number }
  | { readonly kind: "refused"; readonly sentence: string };

/**
 * What the thread may hold, MB, and how long it may take, ms: more than anything needs that is
 * within the limits of an archive, and less than a service with 512 MB has left.
 */
const MEMORY = 160;
const PATIENCE = 5 * 60_000;

type Filled = { readonly value: BenchRecord; readonly standing: Standing; readonly lost: number };

/**
 * Puts another bench in the place of one with a long past. Going through thousands of runs, and
 * writing them, is done by a thread of its own; here only what it has made is taken over.
 *
 * @throws ExportError with a sentence; the bench is what it was then
 */
export async function rewriteApart(
  { id, record }: Bench,
  rewriteBy: NonNullable<Store<BenchRecord>["rewriteBy"]>,
  job: Job,
): Promise<{ readonly held: BenchRecord; readonly lost: number }> {
  let lost = 0;
  const held = await rewriteBy(id, record, async (folders) => {
    const filled = await fill({ ...folders, id, zone: record.bench.zone, job });
    lost = filled.lost;
    return filled;
  });
  return { held, lost };
}

function fill(apart: Apart): Promise<Filled> {
  const anew = applying(newRecord(apart.id, apart.zone));
  return inThread<Told, Filled>({
    module: new URL("./rewrite-worker.ts", import.meta.url),
    given: apart,
    what: "writing the bench anew",
    memory: MEMORY,
    patience: PATIENCE,
    beyond: () => new ExportError(beyond[apart.job.kind]),
    hear: (told, answer) => {
      if (told.kind === "refused") throw new ExportError(told.sentence);
      if (told.kind === "done") {
        return { value: anew.take([]), standing: told.standing, lost: told.lost };
      }
      anew.take(told.changes);
      // A cue that has fallen due is given before the next part comes.
      void nextTurn().then(() => answer("next"));
      return undefined;
    },
  });
}

const beyond: Readonly<Record<Job["kind"], string>> = {
  restore: "That archive is larger than I can restore here. Nothing was changed.",
  "forget-member": "This bench is too large to be written anew here. Nothing was changed.",
};
