import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import { dateOf } from "../domain/timing/clock-text.ts";
import type { Json, Reply } from "../reply/reply.ts";
import { sessionJson } from "./session-json.ts";
import { sessionMarkdown } from "./session-markdown.ts";
import { sessionOf } from "./session-of.ts";
import { sessionLines } from "./session-text.ts";
import { summaryOf, summaryValues } from "./summary-text.ts";

export const sessionForms = ["text", "markdown", "json", "picture"] as const;

/** Names of the files of a picture, as the channel that draws it adds them. */
export const pictureValues: Readonly<Record<string, string>> = {
  picture: "PNG file, wide, its name from the data folder on; missing where none was drawn",
  picture_svg: "the same as SVG",
  picture_phone: "PNG file for a phone held upright",
  picture_phone_svg: "the same as SVG",
};

export const formValues: Readonly<Record<string, string>> = {
  ...summaryValues,
  session:
    "as JSON: the whole record, by data/schemas/session-1.schema.json; missing in other forms",
  markdown: "as Markdown: the text; missing in other forms",
  document:
    "Markdown or JSON file, its name from the data folder on; missing where none was written",
  ...pictureValues,
};

/** The record of a run in one of its four forms, for the bench's own. */
export function inForm(bench: Bench, run: Run, form: (typeof sessionForms)[number]): Reply {
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
