import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { lastTold, reminderMeant } from "../src/commands/find-reminder.ts";
import { dueFacts, dueValues, showDue } from "../src/commands/reminder-text.ts";
import { dueOf } from "../src/domain/reminders/due.ts";
import { withReminder } from "../src/domain/reminders/give.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { currentStage } from "../src/domain/session/run.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

/** The bare word "done" belongs to the tank (`next`): here it always has "with" or "reminder" by it. */
export const reminderDoneCommand = defineCommand({
  name: "reminder done",
  summary: "Tick a reminder off.",
  topic: "reminder",
  sentences: [
    "(reminder done|done with (it|that reminder|the reminder)|tick (it|that) off|tick off)",
    "(done with|tick off|cross off) [the] [reminder] [to|about|of] {which}",
    "(tick|cross) {which} off",
    "(mark|tick) [the|that|this] reminder [as] (done|off)",
    "[the|that|this] reminder is done",
    "{which} reminder is done",
    "reminder {which} done",
  ],
  slots: { which: "task", sure: "yes" },
  examples: ["reminder done", "done with fixer", "tick off the bottles"],
  fields: z.object({ which: z.string().optional(), sure: z.boolean().optional() }),
  changes: true,
  values: { reminder: "its id", text: "what it says", ...dueValues },
  run({ bench, now }, { which, sure }) {
    const meant =
      which === undefined
        ? { reminder: lastTold(bench) }
        : reminderMeant(bench, "reminder done", "which", which, {});
    if ("reply" in meant) return meant.reply;
    const { reminder } = meant;
    if (reminder === undefined) {
      return refuse(
        "nothing-to-tick-off",
        "No reminder has been told that is not ticked off. Say reminders to see them.",
        { say: "There is no reminder to tick off." },
      );
    }
    const bath = liveRuns(bench)
      .map(currentStage)
      .find((stage) => stage !== undefined && which?.toLowerCase().includes(stage.bath));
    if (bath !== undefined && sure === undefined) {
      const title = `${bath.bath} is in a tank. Do you mean the reminder "${reminder.text}"?`;
      return confirm("reminder done", { which: reminder.id }, "sure", title, {
        lines: ["For the tank, say out or next."],
      });
    }
    if (sure === false) {
      return answer({
        title: "The reminder stays. For the tank, say out or next.",
        say: "It stays. For the tank, say out or next.",
      });
    }
    const { snoozed: _, heldUntil: __, ...rest } = reminder;
    const again = reminder.rule.kind === "every" ? reminder.due : undefined;
    const ticked = { ...rest, due: again, doneOn: dateOf(now, bench.zone) };
    return {
      bench: withReminder(bench, ticked),
      reply: answer({
        title: `Ticked off: ${reminder.text}`,
        say: oneBreath(`Ticked off: ${reminder.text}`),
        lines: again === undefined ? [] : [`It comes again ${showDue(bench, again)}.`],
        facts: { reminder: reminder.id, text: reminder.text, ...dueFacts(dueOf(ticked)) },
      }),
    };
  },
});
