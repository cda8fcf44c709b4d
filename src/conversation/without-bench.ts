import type { Command } from "../commands/define-command.ts";
import { benchHolds, holdsWords } from "../commands/work-words.ts";
import { noPast } from "../domain/session/past.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Json, Reply } from "../reply/reply.ts";
import { type BenchRecord, newRecord } from "./record.ts";
import { type ExportsKnown, type Message, type Turn, turn } from "./turn.ts";

/**
 * What a message gets where the record of its bench makes a turn fail: first aid for anybody, and
 * for the owner the two ways out, forgetting the whole bench and restoring another in its place.
 * Nothing of the bench is looked into but how much there is, and nothing of it changes but the talk.
 *
 * @returns nothing for any other message
 */
export function turnWithoutBench(
  record: BenchRecord,
  message: Message,
  now: Instant,
  commands: readonly Command[],
  exports: ExportsKnown,
): Turn | undefined {
  const empty = newRecord(record.bench.id, "UTC");
  // One with nothing in it would be replaced without a question.
  const bench = { ...empty.bench, notes: [{ at: now, by: "", text: "" }] };
  const bare = { ...empty, bench, threads: record.threads };
  const taken = turn(bare, message, now, commands, noPast, exports);
  // Whether a clock runs is not known here.
  const reply = { ...taken.reply, clock: undefined };
  if (reply.facts.first_aid === true) return { record, reply };
  if (taken.lacks === "exports") return { ...taken, record };
  if (!isWayOut(taken)) return undefined;
  const { threads } = taken.record;
  return { ...taken, record: { ...record, threads }, reply: withCounts(reply, record) };
}

/** The question that is asked before, or the deed; both are the owner's alone. */
const isWayOut = ({ work, reply: { ask, facts } }: Turn): boolean =>
  work?.kind === "forget-bench" ||
  work?.kind === "restore" ||
  ask?.command === "restore" ||
  facts.reason === "no-archive" ||
  facts.reason === "bad-archive" ||
  (ask?.command === "forget" && ask.fields.whole === true);

/** What would go is told as it is on the bench, and not as on the empty one that was asked. */
function withCounts(reply: Reply, { bench }: BenchRecord): Reply {
  const counts = benchHolds(bench);
  const { pictures: _, ...holds } = counts;
  const there = (text: string): string => text.replaceAll("nothing yet", holdsWords(counts));
  const facts: Record<string, Json> =
    "replaces" in reply.facts ? { ...reply.facts, replaces: holds } : { ...reply.facts, ...holds };
  return { ...reply, title: there(reply.title), lines: reply.lines.map(there), facts };
}
