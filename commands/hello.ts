import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { standingLine } from "../src/commands/run-lines.ts";
import { liveBottles } from "../src/domain/session/bench.ts";
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
        bottles === 0
          ? "New here? Try: use sheet saltmarsh demo, then mix 1 litre of developer."
          : `${bottles} bottle${bottles === 1 ? "" : "s"} in use. Say bottles, start developer, or help.`,
      ],
      say:
        runs.length === 0 ? "Here I am. No clock is running." : "Here I am. Say left for the time.",
      facts: { bottles, runs: runs.length },
    });
  },
});
