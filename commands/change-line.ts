import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { askNext, questionMeant, takeAnswer } from "../src/commands/teaching.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Draft } from "../src/domain/session/draft.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const changeLineCommand = defineCommand({
  name: "change",
  summary: "Correct one line of the sheet that is being taught, or open a stored one.",
  topic: "sheet",
  sentences: [
    "(change|correct|make) [line] {line} (to|is|into|as) {value}",
    "line {line} [is|should be|to|should read] {value}",
    "(change|correct|make) [the] {solution} {word} (to|is|into) {value}",
    "(change|correct|make) [the] {solution} keeps {word} full (to|is|into) {value}",
    "(change|correct|make) [the] {word} (to|is|into) {value}",
    "(correct|edit|change) [the] sheet {sheet}",
    "(correct|edit|change) [the] {sheet} sheet",
  ],
  slots: { line: "count", value: "text" },
  examples: ["change 7 to 650 ml", "change developer time to 3:30", "correct sheet garden"],
  fields: z.object({
    line: z
      .number()
      .int("Give the number of the line.")
      .min(1, "Lines begin at 1.")
      .max(200, "There is no such line.")
      .optional(),
    value: z.string().optional(),
    solution: z.string().optional(),
    word: z.string().optional(),
    sheet: z.string().optional(),
  }),
  changes: true,
  values: {
    asking: "id of the open question, right when all is answered",
    sheet: "name of the sheet",
  },
  run({ bench, who, listening }, { line, value, solution, word, sheet }) {
    if (sheet !== undefined) {
      const answers = ownValue(bench.taught, sheet);
      if (answers === undefined) {
        return refuse(
          "not-taught",
          "That sheet ships with me and cannot be corrected. Say learn a sheet to teach yours.",
          {
            say: "That one ships with me. Say learn a sheet.",
          },
        );
      }
      const draft: Draft = { answers, by: who, corrects: sheet };
      return { bench: { ...bench, draft }, reply: askNext(draft, "") };
    }
    const { draft } = bench;
    if (draft === undefined) {
      return refuse(
        "no-draft",
        "No sheet is open. Say learn a sheet, or correct sheet and its name.",
        {
          say: "No sheet is open.",
        },
      );
    }
    const meant = questionMeant(draft.answers, line, solution, word?.toLowerCase());
    if (meant === undefined) {
      return refuse(
        "no-such-line",
        "I have no such line. Give its number, like change 7 to 650 ml.",
        {
          say: "I have no such line. Give its number.",
          ask: { command: "learn", fields: {}, slot: "answer", eager: true },
        },
      );
    }
    if (value === undefined) return askNext(draft, "");
    return takeAnswer(bench, draft, meant, value, listening);
  },
});

export const forgetDraftCommand = defineCommand({
  name: "stop teaching",
  summary: "Put the sheet that is being taught away.",
  topic: "sheet",
  sentences: [
    "(stop|end|give up|abandon|cancel) (teaching|learning|the sheet|the new sheet|this sheet)",
  ],
  examples: ["stop teaching"],
  fields: z.object({}),
  changes: true,
  values: { sheet: "name of the sheet put away, or null" },
  run({ bench }) {
    const { draft, ...rest } = bench;
    if (draft === undefined) return refuse("no-draft", "No sheet is open.");
    return {
      bench: rest,
      reply: answer({
        title: "Put away; nothing is stored. Undo brings it back.",
        say: "Put away. Nothing is stored.",
        facts: { sheet: draft.answers.name ?? null },
      }),
    };
  },
});
