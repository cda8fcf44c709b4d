import { bathWithBottle, calledTank, changeOfClocks, standingLine } from "../commands/run-lines.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { standing } from "../domain/session/hear.ts";
import type { Run } from "../domain/session/run.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { layOut } from "../domain/timing/stage-clock.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { cue, type Reply } from "../reply/reply.ts";

/**
 * What is told when the program is asked to leave while a run is open, so that a wall clock can
 * finish the job; undefined where none is open.
 */
export function farewell(bench: Bench, now: Instant): Reply | undefined {
  const runs = liveRuns(bench);
  if (runs.length === 0) return undefined;
  return cue({
    title: "I am asked to leave and give no cues until I am back. Go by the clock:",
    lines: [...new Set(runs.flatMap((run) => restOf(bench, run, now)))],
    say: "I leave now. Go by the clock times on the screen.",
    facts: { cue: "leaving", tanks: runs.map(({ tank }) => tank) },
  });
}

/** What is still to be done for one run, a line a bath, with clock times. */
function restOf(bench: Bench, run: Run, now: Instant): readonly string[] {
  const at = standing(run, now);
  if (at.kind === "planned" && at.pourAt === undefined) return [standingLine(bench, run, now)];
  const clocks = layOut(run, now);
  const baths = clocks.flatMap((clock, index) => {
    const stage = run.stages[index];
    if (stage === undefined || clock === undefined || index < run.current) return [];
    const out = clockTime(clock.pourOut, bench.zone);
    const isIn = index === run.current && at.kind === "in";
    return isIn
      ? [`${calledTank(run)}: ${stage.bath} is in; pour out ${out}`]
      : [
          `${calledTank(run)}: ${clockTime(clock.pour, bench.zone)} pour ${bathWithBottle(bench, stage)}; pour out ${out}`,
        ];
  });
  return [...baths, ...changeOfClocks(bench, clocks, now)];
}
