import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { sessionJson } from "../src/commands/session-json.ts";
import { sessionMarkdown } from "../src/commands/session-markdown.ts";
import { sessionOf } from "../src/commands/session-of.ts";
import { sessionLines } from "../src/commands/session-text.ts";
import { summaryOf, summaryValues } from "../src/commands/summary-text.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { latestRun, runOfTank } from "../src/domain/session/find-run.ts";
import type { Run } from "../src/domain/session/run.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import type { Json, Reply } from "../src/reply/reply.ts";
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
    "(summarise|summarize|sum up) [it|the session|the run]",
  ],
  examples: ["summary", "summary of tank north", "summary as markdown", "summary picture"],
  fields: z.object({
    tank: z.string().optional(),
    form: z.enum(["text", "markdown", "json", "picture"]).optional(),
  }),
  changes: false,
  aside: true,
  values: {
    ...summaryValues,
    session:
      "as JSON: the whole record, by data/schemas/session-1.schema.json; missing in other forms",
    markdown: "as Markdown: the text; missing in other forms",
    document:
      "Markdown or JSON file, its name from the data folder on; missing where none was written",
    picture: "PNG file, wide, its name from the data folder on; missing where none was drawn",
    picture_svg: "the same as SVG",
    picture_phone: "PNG file for a phone held upright",
    picture_phone_svg: "the same as SVG",
  },
  run({ bench }, { tank, form = "text" }) {
    const run = tank === undefined ? latestRun(bench) : runOfTank(bench, tank);
    if (run === undefined) {
      return refuse("no-run", "There is no run to sum up yet. Say start developer.", {
        say: "There is no run to sum up yet.",
      });
    }
    return formed(bench, run, form);
  },
});

function formed(bench: Bench, run: Run, form: "text" | "markdown" | "json" | "picture"): Reply {
  const reply = summaryOf(bench, run, { private: true });
  if (form === "text") return reply;
  const session = sessionOf(bench, run);
  const name = `${dateOf(run.plannedAt, bench.zone)}-${run.tank.toLowerCase()}-${run.id}`;
  switch (form) {
    case "markdown": {
      const text = sessionMarkdown(session);
      return {
        ...reply,
        lines: text.split("\n").filter((line) => line.trim() !== ""),
        facts: { ...reply.facts, markdown: text },
        document: { kind: "markdown", name, text },
      };
    }
    case "json":
      return {
        ...reply,
        lines: ["The whole record as JSON, private notes and names in it."],
        facts: { ...reply.facts, session: JSON.parse(JSON.stringify(session)) as Json },
        document: { kind: "json", name, text: sessionJson(session) },
      };
    case "picture": {
      // A picture is made to be shown: what is private is not drawn, and its words leave it out too.
      const { private: _, ...shown } = session;
      const words = [reply.title, ...sessionLines(shown)];
      return {
        ...reply,
        picture: { kind: "session", name: `${run.id}-summary`, session: shown, words },
      };
    }
  }
}
