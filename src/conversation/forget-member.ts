import type { Bench } from "../domain/session/bench.ts";
import { forgetPerson } from "../domain/session/forget-person.ts";
import type { Run } from "../domain/session/run.ts";
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
    runs: Object.fromEntries(
      Object.entries(bench.runs).map(([id, run]) => [id, withoutWords(run, who)]),
    ),
    notes: bench.notes.filter(({ by }) => !own(by)),
    // What they had is free again.
    ...(bench.inUse === undefined
      ? {}
      : {
          inUse: Object.fromEntries(Object.entries(bench.inUse).filter(([, { by }]) => !own(by))),
        }),
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

/** A stored run without one of its people. */
export const forgetInRun = (run: Run, who: string): unknown =>
  forgetPerson(withoutWords(run, who), who);

/**
 * A run without what they wrote. Where a record does not tell whose words they are and they may be
 * theirs, the words go: nothing of theirs stays.
 */
function withoutWords(run: Run, who: string): Run {
  const own = (name: string | undefined): boolean => name?.toLowerCase() === who.toLowerCase();
  const did = run.people?.find(({ name }) => own(name))?.did ?? [];
  const notes = run.notes.filter(({ by }) =>
    by === undefined ? !did.includes("noted") : !own(by),
  );
  const { after, stoppedBecause, ...rest } = run;
  const took = own(run.by) || did.length > 0;
  return {
    ...rest,
    notes,
    ...(stoppedBecause === undefined || took ? {} : { stoppedBecause }),
    ...(after === undefined ? {} : { after: did.includes("answered") ? unsaid(after) : after }),
  };
}

/** That it was answered stays, so that nobody is asked again. */
const unsaid = (after: NonNullable<Run["after"]>): NonNullable<Run["after"]> =>
  after.different === undefined ? after : { ...after, different: "" };
