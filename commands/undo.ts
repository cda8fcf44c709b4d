import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { notYours } from "../src/commands/not-yours.ts";
import { mayUse } from "../src/commands/permissions.ts";
import { askingValues, askNext } from "../src/commands/teaching.ts";
import { applyIfFits, type Change } from "../src/domain/changes.ts";
import { type Bench, benchSchema } from "../src/domain/session/bench.ts";
import { keepTold } from "../src/domain/session/keep-told.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";
import { misfit } from "../src/store/check-fit.ts";

/** What was done, without what was asked with it: nobody is to answer an old question. */
function withoutQuestion(label: string): string {
  const sentences = label.split(/(?<=[.?!]"?) /);
  const asked = sentences.findIndex((sentence) => /\?"?$/.test(sentence));
  const told = asked < 0 ? sentences : sentences.slice(0, asked);
  return told.length === 0 ? "the last change." : told.join(" ");
}

const spoils = (bench: Bench, changes: readonly Change[]): boolean =>
  misfit(benchSchema, bench, changes) !== undefined;
const fits = (bench: Bench): boolean => benchSchema.safeParse(bench).success;

export const undoCommand = defineCommand({
  name: "undo",
  summary: "Take back the last change.",
  topic: "bench",
  sentences: ["(undo|take (that|it) back|undo that|that was wrong)"],
  examples: ["undo"],
  fields: z.object({}),
  changes: true,
  values: { undone: "what was taken back, in words", ...askingValues },
  run({ bench, now, undoable, standing }) {
    const last = undoable.at(-1);
    if (last === undefined) {
      return refuse(
        "nothing-to-undo",
        "There is nothing I can take back. What the clock has done stays done.",
        {
          say: "There is nothing to take back.",
        },
      );
    }
    if (last.right !== undefined && !mayUse(standing, last.right)) return notYours;
    const before = applyIfFits(bench, last.changes);
    // What was kept for it may be of another bench, or of nobody's: out of a file that was handled.
    if (before === undefined || (spoils(before, last.changes) && fits(bench))) {
      return refuse(
        "undo-misfit",
        `I cannot take back "${last.label}": the bench is no longer what it was then.`,
        { say: "I cannot take that back any more." },
      );
    }
    const undone = withoutQuestion(last.label);
    const kept = keepTold(bench, before, now);
    const title = `Taken back: ${undone}`;
    // An answer of a sheet that is taken back opens its question again.
    const taught = kept.draft !== undefined && kept.draft !== bench.draft;
    return {
      bench: kept,
      undid: true,
      reply:
        taught && kept.draft !== undefined
          ? askNext(kept.draft, title)
          : answer({ title, say: oneBreath(title), facts: { undone } }),
    };
  },
});
