import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { reminderMeant } from "../src/commands/find-reminder.ts";
import { answer, oneBreath } from "../src/reply/reply.ts";

export const forgetReminderCommand = defineCommand({
  name: "forget reminder",
  summary: "Take a reminder off the list, with all its repeats.",
  topic: "reminder",
  sentences: [
    "(forget|delete|remove|cancel|drop) [the] reminder [to|about|of|for] {which}",
    "(forget|delete|remove|cancel|drop) [the|a|that|this] reminder",
    "(stop|do not) (reminding|remind) (me|us) [(to|about|of)] {which}",
  ],
  slots: { which: "text" },
  examples: ["forget reminder fixer", "stop reminding me of the bottles"],
  fields: z.object({ which: z.string("Which reminder? Say a word of it.") }),
  changes: true,
  values: { reminder: "its id", text: "what it said" },
  run({ bench }, { which }) {
    const meant = reminderMeant(bench, "forget reminder", "which", which, {});
    if ("reply" in meant) return meant.reply;
    const { id, text } = meant.reminder;
    const { [id]: _, ...reminders } = bench.reminders;
    return {
      bench: { ...bench, reminders },
      reply: answer({
        title: `Forgotten: ${text}`,
        say: oneBreath(`Forgotten: ${text}`),
        lines: ["Say undo to have it back."],
        facts: { reminder: id, text },
      }),
    };
  },
});
