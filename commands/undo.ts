import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { notYours } from "../src/commands/not-yours.ts";
import { mayUse } from "../src/commands/permissions.ts";
import { applyIfFits } from "../src/domain/changes.ts";
import { keepTold } from "../src/domain/session/keep-told.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

export const undoCommand = defineCommand({
  name: "undo",
  summary: "Take back the last change.",
  topic: "bench",
  sentences: ["(undo|take (that|it) back|undo that|that was wrong)"],
  examples: ["undo"],
  fields: z.object({}),
  changes: true,
  values: { undone: "title of what was taken back" },
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
    if (before === undefined) {
      return refuse(
        "undo-misfit",
        `I cannot take back "${last.label}": the bench is no longer what it was then.`,
        { say: "I cannot take that back any more." },
      );
    }
    return {
      bench: keepTold(bench, before, now),
      undid: true,
      reply: answer({
        title: `Taken back: ${last.label}`,
        say: oneBreath(`Taken back: ${last.label}`),
        facts: { undone: last.label },
      }),
    };
  },
});
