import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { liveReminders } from "../src/commands/find-reminder.ts";
import { dueFacts, reminderLine, sayDue } from "../src/commands/reminder-text.ts";
import { showMoment, showTime } from "../src/domain/reminders/calendar.ts";
import { dueOf } from "../src/domain/reminders/due.ts";
import { showRepeats } from "../src/domain/reminders/show-repeats.ts";
import { answer, type Json, oneBreath } from "../src/reply/reply.ts";

/** A screen holds this many. */
const SHOWN = 30;

export const remindersCommand = defineCommand({
  name: "reminders",
  summary: "Every reminder that is still to come or not ticked off.",
  topic: "reminder",
  sentences: [
    "[show [me]|list|what are|any] [all] [the|my|our] reminders [are there|do i have]",
    "(what|which) reminders (do i have|do we have|are there|are open|are left)",
    "what (do|will) you remind (me|us) (of|about)",
  ],
  examples: ["reminders"],
  fields: z.object({}),
  changes: false,
  values: {
    reminders: "list of { id, text, due: ISO instant or date or null, repeats: words or null }",
    next_message: "ISO instant of the next daily message with something to say, or null",
  },
  run({ bench }) {
    const all = liveReminders(bench);
    const { next } = bench.dailyLook;
    const message =
      next === undefined
        ? `The daily message, at ${showTime(bench.daily)}, has nothing to say yet.`
        : `The next daily message: ${showMoment(next, bench.zone)}.`;
    const coming = all.find((one) => dueOf(one) !== undefined);
    const due = coming === undefined ? undefined : dueOf(coming);
    const more = all.length > SHOWN ? [`and ${all.length - SHOWN} more`] : [];
    return answer({
      title: all.length === 0 ? "No reminders." : `Reminders: ${all.length}`,
      say:
        coming === undefined || due === undefined
          ? "No reminders to come."
          : oneBreath(`Next ${sayDue(bench, due)}: ${coming.text}`),
      lines: [...all.slice(0, SHOWN).map((one) => reminderLine(bench, one)), ...more, message],
      facts: {
        reminders: all.map(
          (one): Json => ({
            id: one.id,
            text: one.text,
            due: dueFacts(dueOf(one)).due ?? null,
            repeats: one.rule.kind === "every" ? showRepeats(one.rule) : null,
          }),
        ),
        next_message:
          next === undefined ? null : Temporal.Instant.fromEpochMilliseconds(next).toString(),
      },
    });
  },
});
