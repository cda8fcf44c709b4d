import { setImmediate as nextTurn } from "node:timers/promises";
import type { Work } from "../commands/work.ts";
import {
  exportedWords,
  forgottenWords,
  progressWords,
  restoredWords,
} from "../commands/work-words.ts";
import type { Run } from "../domain/session/run.ts";
import { isoInstant } from "../domain/timing/clock-text.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Files } from "../export/files.ts";
import { checkExport, readPicture } from "../export/read-export.ts";
import { recallOrNothing } from "../export/recall-or-nothing.ts";
import { outlineOf } from "../export/write-export.ts";
import type { Reply } from "../reply/reply.ts";
import type { Archives, Store } from "../store/store.ts";
import { forgetInRun, forgetMember } from "./forget-member.ts";
import { type BenchRecord, newRecord } from "./record.ts";

/** The bench something is done to, and what it is done with. */
export type Bench = {
  readonly id: string;
  readonly record: BenchRecord;
  readonly store: Store<BenchRecord>;
  readonly files: Files;
};

/** What came of it; `record` where the bench is another after it. */
export type Done = { readonly reply: Reply; readonly record?: BenchRecord };

/** An archive is made from the record as it stands: the bench goes on meanwhile. */
export async function performExport(
  { id, record, store, files }: Bench,
  name: string,
  now: Instant,
  tell: (reply: Reply) => void,
): Promise<Done> {
  // A bench with thousands of runs takes some ms each to be heard, put in words and handed on:
  // between them a cue has its turn.
  await nextTurn();
  const outline = await outlineOf(record);
  await nextTurn();
  const runs = [...Object.keys(record.bench.runs), ...record.bench.pastRuns.map((run) => run.id)];
  const { manifest, bytes } = await files.write(
    name,
    {
      outline,
      made: isoInstant(now),
      recall: (run) => recallOrNothing(() => store.recall(id, run)),
      progress: (done, of) => tell(progressWords(done, of)),
    },
    pictureOf(runs),
    store.archivePath?.(id),
  );
  return { reply: exportedWords(name, bytes, manifest) };
}

/** What replaces the bench: nobody speaks to it meanwhile. */
export function performRewrite(
  bench: Bench,
  work: Exclude<Work, { readonly kind: "export" }>,
): Promise<Done> {
  switch (work.kind) {
    case "restore":
      return restore(bench, work.file);
    case "forget-member":
      return forget(bench, work.who);
    case "forget-bench":
      return forgetAll(bench);
  }
}

async function restore({ id, record, store, files }: Bench, file: string): Promise<Done> {
  const from = await files.open(file);
  try {
    const checked = await checkExport(from);
    const next = { ...checked.record, bench: { ...checked.record.bench, id } };
    const held = await store.rewrite(id, record, next, checked.archives());
    for (const name of from.pictures) await files.putPicture(name, await readPicture(from, name));
    return { record: held, reply: restoredWords(file, held.bench, from.pictures.length) };
  } finally {
    from.close();
  }
}

async function forget({ id, record, store, files }: Bench, who: string): Promise<Done> {
  // A record that cannot be read may hold the name as well: it is not kept.
  const lost: string[] = [];
  for (const run of record.bench.pastRuns) {
    if ((await recallOrNothing(() => store.recall(id, run.id))) === undefined) lost.push(run.id);
  }
  const kept = record.bench.pastRuns.filter((run) => !lost.includes(run.id));
  const without = { ...record, bench: { ...record.bench, pastRuns: kept } };
  async function* archives(): Archives {
    for (const run of kept) {
      const stored = (await store.recall(id, run.id)) as Run;
      yield [run.id, forgetInRun(stored, who)];
    }
  }
  const held = await store.rewrite(id, record, forgetMember(without, who), archives());
  const gone = await files.clear();
  return { record: held, reply: forgottenWords(false, { ...gone, lost: lost.length }) };
}

async function forgetAll({ id, record, store, files }: Bench): Promise<Done> {
  async function* nothing(): Archives {}
  const held = await store.rewrite(id, record, newRecord(id, record.bench.zone), nothing());
  const gone = await files.clear();
  return { record: held, reply: forgottenWords(true, { ...gone, lost: 0 }) };
}

/** Pictures are called by their run, and those of a season by its last day. */
function pictureOf(runs: readonly string[]): (name: string) => boolean {
  const own = new Set(runs);
  return (name) => name.startsWith("season-") || own.has(/^run-\d+/.exec(name)?.[0] ?? "");
}
