import { setImmediate as nextTurn } from "node:timers/promises";
import { exportedWords, progressWords } from "../../commands/work-words.ts";
import { isoInstant } from "../../domain/timing/clock-text.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import { LIMITS } from "../../export/contents.ts";
import { outlineOf } from "../../export/outline.ts";
import { recallOrNothing } from "../../export/recall-or-nothing.ts";
import { tooMuch } from "../../export/too-much.ts";
import type { Reply } from "../../reply/reply.ts";
import type { Bench, Done } from "./bench.ts";

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
  const { manifest, bytes, leftOut } = await files.write(
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
  const long = outline.texts.reduce((sum, text) => sum + Buffer.byteLength(text), 0) > LIMITS.bench;
  const beyond = tooMuch(record) ?? (long ? "a very long record" : undefined);
  return { reply: exportedWords(name, bytes, manifest, { leftOut, beyond }) };
}

/** Pictures are called by their run, and those of a season by its last day. */
function pictureOf(runs: readonly string[]): (name: string) => boolean {
  const own = new Set(runs);
  return (name) => name.startsWith("season-") || own.has(/^run-\d+/.exec(name)?.[0] ?? "");
}
