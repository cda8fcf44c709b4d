import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { reminderMeant } from "../src/commands/find-reminder.ts";
import {
  dueFacts,
  dueValues,
  sayDue,
  showDue,
  withMessage,
} from "../src/commands/reminder-text.ts";
import { resolveMoment } from "../src/commands/resolve-when.ts";
import { whenSchema } from "../src/commands/when-fields.ts";
import { nextMessage } from "../src/domain/reminders/daily.ts";
import type { Due } from "../src/domain/reminders/reminder.ts";
import {
  snoozeDaily,
  snoozeDue,
  snoozeReminder,
  toldLast,
  usualSnooze,
} from "../src/domain/reminders/snooze.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

export const snoozeCommand = defineCommand({
  name: "snooze",
  summary: "Have a reminder, or the daily message, come again later.",
  topic: "reminder",
  sentences: [
    "(snooze|put off|postpone|later) [it|that|this|the reminder|reminder] [{delay}]",
    "put (it|that|this) off [{delay}]",
    "(snooze|put off|postpone) [the] [reminder] [to|about|of] {which} {delay}",
    "(snooze|put off|postpone) [the] [reminder] [to|about|of] {which}",
    "(remind|ask|tell) (me|us) again {delay}",
    "(remind|ask|tell) (me|us) again [later]",
  ],
  slots: { which: "task" },
  examples: ["snooze", "snooze two days", "snooze fixer until monday"],
  fields: z.object({ delay: whenSchema.optional(), which: z.string().optional() }),
  changes: true,
  values: {
    reminder: "its id; null for the daily message",
    text: "what it says",
    ...dueValues,
    reason: "why the moment could not be kept, where it is asked for again",
  },
  run({ bench, now }, { delay, which }) {
    const named =
      which === undefined
        ? undefined
        : reminderMeant(bench, "snooze", "which", which, delay === undefined ? {} : { delay });
    if (named !== undefined && "reply" in named) return named.reply;
    const told = named === undefined ? toldLast(bench) : { kind: "reminder" as const, ...named };
    if (told === undefined) {
      return refuse("nothing-to-snooze", "Nothing has been told yet that could come again.");
    }
    const found = delay === undefined ? undefined : resolveMoment(bench, now, delay);
    if (found !== undefined && !("due" in found)) {
      const kept = which === undefined ? {} : { which };
      return askFor("snooze", kept, "delay", found.sentence, undefined, {
        facts: { reason: found.reason },
      });
    }
    const until: Due =
      told.kind === "daily"
        ? (found?.due ?? { day: nextMessage(bench, now).toString() })
        : found === undefined
          ? usualSnooze(bench, told.reminder, now)
          : "day" in found.due
            ? snoozeDue(bench, told.reminder, found.due.day)
            : found.due;
    const daily = told.kind === "daily";
    const text = daily ? "the daily message" : told.reminder.text;
    return {
      bench: daily ? snoozeDaily(bench, until) : snoozeReminder(bench, told.reminder, until),
      reply: answer({
        title: `${showDue(bench, until)}, again: ${text}`,
        say: oneBreath(`Again ${sayDue(bench, until)}.`),
        lines: [...(found?.notes ?? []), ...(daily ? [] : withMessage(bench, until))],
        facts: { reminder: daily ? null : told.reminder.id, text, ...dueFacts(until) },
      }),
    };
  },
});
