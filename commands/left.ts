import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { bathWithBottle, calledTank, standingLine } from "../src/commands/run-lines.ts";
import { withTank } from "../src/commands/tanks.ts";
import { stillTeaching } from "../src/commands/teaching.ts";
import { stillMixing } from "../src/commands/walk-words.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { standing } from "../src/domain/session/hear.ts";
import { rehearsalMark } from "../src/domain/session/rehearsal.ts";
import type { Run } from "../src/domain/session/run.ts";
import { nextStage } from "../src/domain/timing/cues.ts";
import { seconds } from "../src/domain/units/quantity.ts";
import { sayDuration } from "../src/domain/units/show.ts";
import { answer, type Json } from "../src/reply/reply.ts";

export const leftCommand = defineCommand({
  name: "left",
  summary: "How long the bath still has, for every tank.",
  topic: "run",
  sentences: [
    ...withTank(
      "(left|time|time left|how long|how long left|how much time [is] left|where are we|status)",
    ),
    "what (bath|step|stage) (is|are) (it|this|we) [in|on]",
    "how (long|much) (is|have we got|do i have) left",
    "how long (have we got|have i got|do i have|do we have) [in [tank] {tank} [tank]]",
    "how (much|many) (longer|minutes|seconds|more time|time) [is it|to go|are left|is left|left|do i have [left]|have i got [left]|have we got [left]] [in [tank] {tank} [tank]]",
    "(what is next|what next|what comes next|what do i do [next]|which bath is next|when do i pour [out]|when is it over|how long to go)",
  ],
  examples: ["left", "how long left"],
  fields: z.object({ tank: z.string().optional() }),
  changes: false,
  aside: true,
  values: {
    left_s: "until the end of the bath, s; of the first tank named",
    tanks:
      "one entry a tank: tank, bath, state (planned, pouring, in), left_s, until_pour_out_s, rehearsal",
  },
  run({ bench, now }, { tank }) {
    const runs = liveRuns(bench).filter(
      (run) => tank === undefined || run.tank.toLowerCase() === tank.toLowerCase(),
    );
    if (runs.length === 0) {
      if (bench.mixing !== undefined && liveRuns(bench).length === 0) {
        return stillMixing(bench.mixing);
      }
      if (bench.draft !== undefined && liveRuns(bench).length === 0) {
        return stillTeaching(bench.draft, "No clock is running.");
      }
      return answer({
        title: "No clock is running.",
        say: "No clock is running.",
        facts: { tanks: [] },
      });
    }
    const tanks: Json[] = [];
    const spoken: string[] = [];
    let least: number | undefined;
    for (const run of runs) {
      const at = standing(run, now);
      if (at.kind === "over") continue;
      const left = at.kind === "in" ? at.left : null;
      if (left !== null && (least === undefined || left < least)) least = left;
      tanks.push({
        tank: run.tank,
        bath: at.stage.bath,
        state: at.kind,
        left_s: left,
        until_pour_out_s: at.kind === "in" ? at.untilPourOut : null,
        rehearsal: run.rehearsal !== undefined,
      });
      spoken.push(
        at.kind === "in"
          ? `${calledTank(run)}: ${at.stage.bath}, ${sayDuration(seconds(Math.max(0, at.left)))} left`
          : `${calledTank(run)}: ${at.kind === "pouring" ? "pouring" : "waiting"}`,
      );
    }
    return answer({
      title:
        runs.length === 1 && runs[0] !== undefined
          ? standingLine(bench, runs[0], now)
          : "Time left",
      lines: runs.flatMap((run) => [
        ...(runs.length === 1 ? [] : [standingLine(bench, run, now)]),
        ...nextLine(bench, run),
        ...markLine(run),
      ]),
      say: withinBreath(spoken),
      facts: { tanks },
      figures:
        least === undefined
          ? {}
          : {
              left_s: {
                value: least,
                origin: { kind: "computed", source: "end of the bath less now" },
              },
            },
    });
  },
});

const markLine = (run: Run): readonly string[] => {
  const mark = rehearsalMark(run);
  return mark === undefined ? [] : [mark];
};

/** What the hands will need after this bath. */
function nextLine(bench: Bench, run: Run): readonly string[] {
  const next = nextStage(run, run.current);
  return next === undefined ? [] : [`Next: ${bathWithBottle(bench, next.stage)}.`];
}

/** As many tanks as fit into one breath, the first ones first. */
function withinBreath(spoken: readonly string[]): string {
  let say = "";
  for (const one of spoken) {
    const longer = say === "" ? one : `${say}; ${one}`;
    if (longer.split(" ").length > 12) break;
    say = longer;
  }
  return say;
}
