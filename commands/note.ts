import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { latestRun, liveRuns } from "../src/domain/session/find-run.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const noteCommand = defineCommand({
  name: "note",
  summary: "Write something down in the record of the run.",
  topic: "run",
  sentences: ["(note|log|write down|remember) [that] {text}", "(note|make a note)"],
  examples: ["note the second roll was loaded wet"],
  fields: z.object({
    text: z
      .string("What shall I write down?")
      .max(500, "A note has 500 characters at most. Make two of it."),
  }),
  changes: true,
  values: { note: "the note", tank: "the run it is with, if there is one" },
  run({ bench, now, who }, { text }) {
    if (/^as (a )?fault$/.test(text)) {
      return refuse(
        "nothing-open",
        "I have no reading open to log as a fault. Say the temperature again.",
      );
    }
    if (/^(it|that|this)$/.test(text))
      return askFor("note", {}, "text", "What shall I write down?");
    const run = liveRuns(bench)[0] ?? latestRun(bench);
    const reply = (where: string) =>
      answer({
        title: `Noted${where}: ${text}`,
        say: "Noted.",
        facts: { note: text, ...(run === undefined ? {} : { tank: run.tank }) },
      });
    if (run === undefined) {
      return {
        bench: { ...bench, notes: [...bench.notes, { at: now, by: who, text }] },
        reply: reply(""),
      };
    }
    const noted = { ...run, notes: [...run.notes, { at: now, text, by: who }] };
    return {
      bench: { ...bench, runs: { ...bench.runs, [run.id]: noted } },
      reply: reply(` with ${run.tank}`),
    };
  },
});
