import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { standingLine } from "../src/commands/run-lines.ts";
import { type Bench, liveBottles } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { answer } from "../src/reply/reply.ts";

export const helloCommand = defineCommand({
  name: "hello",
  summary: "Where things stand, and how to begin.",
  topic: "bench",
  sentences: [
    "(hello|hi|good evening|good morning|good afternoon|good day) [there]",
    "(thank you|thanks|cheers|good night|bye|goodbye) [very much|a lot]",
  ],
  examples: ["hello"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { bottles: "how many bottles are in use", runs: "how many runs are open" },
  run({ bench, now }) {
    const runs = liveRuns(bench);
    const bottles = liveBottles(bench).length;
    return answer({
      title: runs.length === 0 ? "Here I am. No clock is running." : "Here I am.",
      lines: [
        ...runs.map((run) => standingLine(bench, run, now)),
        bottles > 0
          ? `${bottles} bottle${bottles === 1 ? "" : "s"} in use. Say bottles, start developer, or help.`
          : isNew(bench)
            ? "New here? Try: use sheet saltmarsh demo, then mix 1 litre of developer."
            : "Say help for what I can do.",
      ],
      say:
        runs.length === 0 ? "Here I am. No clock is running." : "Here I am. Say left for the time.",
      facts: { bottles, runs: runs.length },
    });
  },
});

/** Nothing was ever done at this bench. */
const isNew = ({ runs, pastRuns, mixing, sheets, sheetInUse }: Bench): boolean =>
  mixing === undefined &&
  sheetInUse === undefined &&
  pastRuns.length + Object.keys(runs).length + Object.keys(sheets).length === 0;
