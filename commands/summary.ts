import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { pastOfNamed, runNamed } from "../src/commands/run-named.ts";
import { formValues, inForm, sessionForms } from "../src/commands/session-forms.ts";
import { refuse } from "../src/reply/reply.ts";

export const summaryCommand = defineCommand({
  name: "summary",
  summary: "The record of a run: planned and real, temperatures, bottles, rolls, one lesson.",
  topic: "run",
  sentences: [
    "[show|give|session|run|can i have|can we have] [me|us] [the|a] (summary|record|report|log) [(of|for)] [the] [tank] [{tank}] [tank] [[as|in] [a] {form}]",
    "[the] [session|run] {form} (summary|record|report) [(of|for) [tank] {tank} [tank]]",
    "[tank] {tank} (summary|record|report) [[as|in] [a] {form}]",
    "how did (it|that|we|tank {tank}|{tank}) go",
    "[show|give] [me|us] [the|a] (summary|record|report|log) (of|for) (tonight|today|this evening|the evening|this session) [[as|in] [a] {form}]",
    "[show|draw|give] [me|us] [the|a] {form} of (tonight|today|this evening|this session|the session)",
    "(summarise|summarize|sum up) [it|the session|the run]",
  ],
  examples: ["summary", "summary of tank north", "summary as markdown", "summary picture"],
  fields: z.object({
    tank: z.string().optional(),
    form: z.enum(sessionForms).optional(),
  }),
  changes: false,
  aside: true,
  reads: pastOfNamed,
  values: formValues,
  run({ bench, past }, { tank, form = "text" }) {
    const run = runNamed(bench, past, { tank });
    if (run === undefined) {
      return refuse("no-run", "There is no run to sum up yet. Say start developer.", {
        say: "There is no run to sum up yet.",
      });
    }
    return inForm(bench, run, form);
  },
});
