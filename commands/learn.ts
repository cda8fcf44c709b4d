import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { sheetLines } from "../src/commands/sheet-text.ts";
import { askNext, takeAnswer } from "../src/commands/teaching.ts";
import { takeId } from "../src/domain/session/bench.ts";
import { buildSheet } from "../src/domain/teaching/build-sheet.ts";
import { nextQuestion, questionsOf } from "../src/domain/teaching/questions.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { readers } from "../src/language/readers/all.ts";
import { toWords } from "../src/language/words.ts";
import { answer } from "../src/reply/reply.ts";

export const learnCommand = defineCommand({
  name: "learn",
  summary: "Teach me the sheet in your hand, question by question.",
  topic: "sheet",
  sentences: [
    "(learn|teach|take down|read) [you|me] [a|the|this|new|my|our] [new] sheet [called|named] [{name}]",
    "(new sheet|go on with the sheet|continue the sheet|continue [with] [the] sheet)",
    "i want to teach you a sheet",
  ],
  slots: { name: "newName", answer: "text" },
  examples: ["learn a sheet"],
  fields: z.object({ name: z.string().optional(), answer: z.string().optional() }),
  changes: true,
  values: {
    asking: "id of the open question, right when all is answered",
    sheet: "name of the sheet",
    id: "id of the stored sheet",
    baths: "its baths, in order",
  },
  run({ bench, now, who, listening }, { name, answer: said }) {
    const { draft } = bench;
    if (draft === undefined) {
      const fresh = { answers: {}, by: who };
      const opened = { ...bench, draft: fresh };
      if (name !== undefined) {
        const first = questionsOf({})[0];
        if (first !== undefined) return takeAnswer(opened, fresh, first, name, listening);
      }
      return {
        bench: opened,
        reply: askNext(fresh, "Take the paper in hand; I ask one figure at a time."),
      };
    }
    if (said === undefined) return askNext(draft, "We go on.");
    const open = nextQuestion(draft.answers);
    if (open !== undefined) return takeAnswer(bench, draft, open, said, listening);

    const words = toWords(said).words;
    const yes = readers.yes(words, 0, listening).find(({ next }) => next === words.length)?.value;
    if (yes !== true) return askNext(draft, "");
    const { draft: _, ...rest } = bench;
    const taken =
      draft.corrects === undefined ? takeId(rest, "sheet-") : { id: draft.corrects, bench: rest };
    const sheet = buildSheet(taken.id, draft.answers);
    return {
      bench: {
        ...taken.bench,
        sheets: { ...rest.sheets, [sheet.id]: sheet },
        taught: { ...rest.taught, [sheet.id]: draft.answers },
        taughtOn: { [sheet.id]: dateOf(now, rest.zone), ...rest.taughtOn },
        sheetInUse: sheet.id,
      },
      reply: answer({
        title: `Sheet ${sheet.name} is stored and in use.`,
        lines: sheetLines(sheet),
        say: `Sheet ${sheet.name} is stored and in use.`,
        facts: {
          sheet: sheet.name,
          id: sheet.id,
          baths: sheet.baths.map((bath) => bath.name),
          asking: null,
        },
      }),
    };
  },
});
