import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import { runOfTank } from "../domain/session/find-run.ts";
import { rehearsalMark } from "../domain/session/rehearsal.ts";
import type { Reply } from "../reply/reply.ts";

/** Whatever is said of a rehearsal says so, whichever command says it. */
export function markRehearsal(bench: Bench, reply: Reply): Reply {
  const { tank, run: id } = reply.facts;
  const named = typeof id === "string" ? ownValue(bench.runs, id) : undefined;
  const run = named ?? (typeof tank === "string" ? runOfTank(bench, tank) : undefined);
  const mark = run === undefined ? undefined : rehearsalMark(run);
  if (mark === undefined || reply.lines.includes(mark)) return reply;
  return { ...reply, lines: [...reply.lines, mark] };
}
