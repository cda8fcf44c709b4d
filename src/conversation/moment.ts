import { calledTank } from "../commands/run-lines.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { standing } from "../domain/session/hear.ts";
import type { Instant } from "../domain/units/quantity.ts";
import type { Moment } from "../reply/reply.ts";

/** Is a bath working on film right now? Of several tanks, the one whose bath ends first. */
export function momentOf(bench: Bench, now: Instant): Moment {
  let found: Extract<Moment, { kind: "running" }> | undefined;
  for (const run of liveRuns(bench)) {
    const at = standing(run, now);
    if (at.kind !== "in") continue;
    if (found === undefined || at.left < found.left_s) {
      found = { kind: "running", tank: calledTank(run), bath: at.stage.bath, left_s: at.left };
    }
  }
  return found ?? { kind: "no-clock" };
}
