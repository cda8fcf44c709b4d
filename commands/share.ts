import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { summaryOf, summaryValues } from "../src/commands/summary-text.ts";
import { latestRun, runOfTank } from "../src/domain/session/find-run.ts";
import { refuse } from "../src/reply/reply.ts";

export const shareCommand = defineCommand({
  name: "share",
  summary: "The summary as text to copy for the film group, private notes left out.",
  topic: "run",
  sentences: [
    "(share|share (it|that|the run|the session)) [[with] [the] group] [(of|from) [tank] {tank}]",
  ],
  examples: ["share"],
  fields: z.object({ tank: z.string().optional() }),
  changes: false,
  values: summaryValues,
  run({ bench }, { tank }) {
    const run = tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
    if (run === undefined) {
      return refuse("no-run", "There is no run to share yet.", {
        say: "There is no run to share yet.",
      });
    }
    return { ...summaryOf(bench, run, { private: false }), share: { run: run.id } };
  },
});
