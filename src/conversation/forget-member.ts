import type { Bench } from "../domain/session/bench.ts";
import { forgetPerson } from "../domain/session/forget-person.ts";
import { type BenchRecord, recordSchema } from "./record.ts";

/**
 * A record without one of its people: what they wrote and what was said to them is gone, and their
 * name with it. What they did to bottles and film stays done, by "someone". Nothing can be undone
 * past it.
 */
export function forgetMember(record: BenchRecord, who: string): BenchRecord {
  const own = (name: string | undefined): boolean => name?.toLowerCase() === who.toLowerCase();
  const { bench } = record;
  const threads = Object.entries(record.threads)
    .filter(([name]) => !own(name))
    .map(([name, { pending, last, figured }]) => [name, { pending, last, figured }] as const);
  const kept: Bench = {
    ...bench,
    notes: bench.notes.filter(({ by }) => !own(by)),
    reminders: Object.fromEntries(
      Object.entries(bench.reminders).filter(([, { owner }]) => !own(owner)),
    ),
  };
  const { draft, ...rest } = kept;
  const without = {
    ...record,
    bench: draft !== undefined && own(draft.by) ? rest : kept,
    threads: Object.fromEntries(threads),
    undo: [],
  };
  return recordSchema.parse(JSON.parse(JSON.stringify(forgetPerson(without, who))));
}
