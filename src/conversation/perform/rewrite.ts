import type { Work } from "../../commands/work.ts";
import { forgottenWords, restoredWords } from "../../commands/work-words.ts";
import type { Run } from "../../domain/session/run.ts";
import { type Files, PICTURES } from "../../export/files.ts";
import type { OpenExport } from "../../export/open-export.ts";
import { putPictures } from "../../export/put-pictures.ts";
import { checkExport } from "../../export/read-export.ts";
import { recallOrNothing } from "../../export/recall-or-nothing.ts";
import { nodeFileSystem } from "../../platform/file-system.ts";
import type { Archives } from "../../store/store.ts";
import { diskError } from "../../store/store-error.ts";
import { forgetInRun, forgetMember } from "../forget-member.ts";
import { type BenchRecord, newRecord } from "../record.ts";
import type { Bench, Done } from "./bench.ts";
import { fillFromArchive } from "./fill-from-archive.ts";

/** Hears of the bench that has taken the place of the old one, whatever may go wrong after. */
type Taken = (held: BenchRecord) => void;

/** What replaces the bench: nobody speaks to it meanwhile. */
export function performRewrite(
  bench: Bench,
  work: Exclude<Work, { readonly kind: "export" }>,
  taken: Taken = () => undefined,
): Promise<Done> {
  switch (work.kind) {
    case "restore":
      return restore(bench, work.file, taken);
    case "forget-member":
      return forget(bench, work.who, taken);
    case "forget-bench":
      return forgetAll(bench, taken);
  }
}

/** So many archived runs, and so many bytes of them, are gone through here without anybody waiting. */
const FEW = 50;
const SMALL = 500_000;

async function restore(bench: Bench, file: string, taken: Taken): Promise<Done> {
  const { id, record, store, files } = bench;
  const from = await files.open(file);
  try {
    const rewriteBy = store.rewriteBy?.bind(store);
    let held: BenchRecord;
    if (rewriteBy === undefined) held = await restoreBeside(bench, from);
    else if (from.bytes <= SMALL) {
      held = await rewriteBy(id, record, ({ next }) => fillFromArchive(from, id, next));
    } else {
      const { rewriteApart } = await import("./rewrite-apart.ts");
      const { sha256 } = from.manifest;
      const job = { kind: "restore", path: files.pathOf(file), sha256 } as const;
      held = (await rewriteApart(bench, rewriteBy, job)).held;
    }
    taken(held);
    const waiting = store.besidePath?.(id, PICTURES) ?? files.staging;
    const left = await files.takePictures(waiting).then(() => false, ofTheDisk);
    const pictures = from.pictures.length;
    return { record: held, reply: restoredWords(file, held.bench, pictures, left) };
  } finally {
    from.close();
  }
}

/** A bench that lies in no folder: its pictures wait beside those that are there. */
async function restoreBeside({ id, record, store, files }: Bench, from: OpenExport) {
  const checked = await checkExport(from);
  const next = { ...checked.record, bench: { ...checked.record.bench, id } };
  const folder = { files: nodeFileSystem, path: files.staging, shown: PICTURES };
  try {
    await nodeFileSystem.removeTree(folder.path);
    await putPictures(from, folder);
    return await store.rewrite(id, record, next, checked.archives());
  } catch (error) {
    await nodeFileSystem.removeTree(folder.path);
    throw isOfTheDisk(error) ? diskError(error, "write the bench anew") : error;
  }
}

async function forget(bench: Bench, who: string, taken: Taken): Promise<Done> {
  const { id, record, store, files } = bench;
  let done: { readonly held: BenchRecord; readonly lost: number };
  if (store.rewriteBy !== undefined && record.bench.pastRuns.length > FEW) {
    const { rewriteApart } = await import("./rewrite-apart.ts");
    done = await rewriteApart(bench, store.rewriteBy.bind(store), { kind: "forget-member", who });
  } else {
    const { next, archives, lost } = await withoutMember(record, who, (name) =>
      store.recall(id, name),
    );
    done = { held: await store.rewrite(id, record, next, archives), lost };
  }
  taken(done.held);
  const gone = await cleared(files);
  return { record: done.held, reply: forgottenWords(false, { ...gone, lost: done.lost }) };
}

/** A bench without one of its people, and how many of its archived runs could not be read. */
export async function withoutMember(
  record: BenchRecord,
  who: string,
  recall: (name: string) => Promise<unknown>,
): Promise<{ readonly next: BenchRecord; readonly archives: Archives; readonly lost: number }> {
  // A record that cannot be read may hold the name as well: it is not kept.
  const lost = new Set<string>();
  for (const { id } of record.bench.pastRuns) {
    if ((await recallOrNothing(() => recall(id))) === undefined) lost.add(id);
  }
  const kept = record.bench.pastRuns.filter(({ id }) => !lost.has(id));
  async function* archives(): Archives {
    for (const { id } of kept) yield [id, forgetInRun((await recall(id)) as Run, who)];
  }
  const next = forgetMember({ ...record, bench: { ...record.bench, pastRuns: kept } }, who);
  return { next, archives: archives(), lost: lost.size };
}

async function forgetAll({ id, record, store, files }: Bench, taken: Taken): Promise<Done> {
  async function* nothing(): Archives {}
  const held = await store.rewrite(id, record, newRecord(id, record.bench.zone), nothing());
  taken(held);
  const gone = await cleared(files);
  return { record: held, reply: forgottenWords(true, { ...gone, lost: 0 }) };
}

/** What a folder would not let go of is told: the bench itself is forgotten by then. */
async function cleared(
  files: Files,
): Promise<{ readonly exports: number; readonly pictures: number; readonly left: boolean }> {
  try {
    return { ...(await files.clear()), left: false };
  } catch (error) {
    if (!isOfTheDisk(error)) throw error;
    return { exports: 0, pictures: 0, left: true };
  }
}

/** True where the disk would not do it; our own faults go on. */
function ofTheDisk(error: unknown): true {
  if (isOfTheDisk(error)) return true;
  throw error;
}

const isOfTheDisk = (error: unknown): boolean => error instanceof Error && "code" in error;
