import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { summaryOf, summaryValues } from "../src/commands/summary-text.ts";
import { latestRun, runOfTank } from "../src/domain/session/find-run.ts";
import { refuse } from "../src/reply/reply.ts";

export const summaryCommand = defineCommand({
  name: "summary",
  summary: "The record of a run: planned and real, temperatures, bottles, rolls, deviations.",
  topic: "run",
  sentences: [
    "[show|give|session|run|can i have|can we have] [me|us] [the|a] (summary|record|report|log) [(of|for)] [the] [tank] [{tank}] [tank]",
    "[tank] {tank} (summary|record|report)",
    "how did (it|that|we|tank {tank}|{tank}) go",
    "(summarise|summarize|sum up) [it|the session|the run]",
  ],
  examples: ["summary", "summary of tank north"],
  fields: z.object({ tank: z.string().optional() }),
  changes: false,
  aside: true,
  values: summaryValues,
  run({ bench }, { tank }) {
    const run = tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
    if (run === undefined) {
      return refuse("no-run", "There is no run to sum up yet. Say start developer.", {
        say: "There is no run to sum up yet.",
      });
    }
    return summaryOf(bench, run, { private: true });
  },
});
