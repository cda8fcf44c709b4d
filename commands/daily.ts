import { z } from "zod";
import { dailyReply, dailyValues } from "../src/commands/daily-lines.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { clockSchema, halves, isOpen, setDaily } from "../src/commands/set-daily.ts";
import { showTime } from "../src/domain/reminders/calendar.ts";

export const dailyCommand = defineCommand({
  name: "daily",
  summary: "The daily message: its hour, on or off, what it waits for.",
  topic: "reminder",
  sentences: [
    "[show [me]] [the] daily (message|look)",
    "[set|move|send [me]] [the] daily [message|look] [to] [at] {clock}",
    "[turn] [the] daily (message|look) {state}",
    "turn {state} [the] daily (message|look)",
    "{state} [more] [the] daily (message|messages|look)",
    "(mention|tell me of|tell me about) (film|rolls) [that] [waits|wait|waited|has waited] (after|longer than|over) {rollDays} days",
  ],
  slots: { state: "word", rollDays: "count" },
  examples: ["daily message", "daily message at 7:30", "daily message off"],
  fields: z.object({
    clock: clockSchema.optional(),
    state: z
      .enum(["on", "off", "stop", "no"], "On or off?")
      .transform((said) => (said === "on" ? ("on" as const) : ("off" as const)))
      .optional(),
    rollDays: z
      .number()
      .int("Film waits whole days. Give a whole number.")
      .min(1, "Give 1 day or more.")
      .max(3650, "Give 3650 days at most.")
      .optional(),
  }),
  changes: true,
  values: {
    ...dailyValues,
    day: "of the message itself: ISO date it is for",
    reminders: "of the message itself: list of { id, text }",
    notices:
      "of the message itself: list of { kind: limit, units, stock, thermometer, roll or look; text }",
    late_s: "of the message itself: how late it comes, s; missing when it is on time",
  },
  run({ bench, now }, { clock, state, rollDays }) {
    if (clock !== undefined && isOpen(clock)) {
      const options = halves(clock);
      const either = options.map(({ word }) => word).join(" or ");
      const title = `The daily message at ${either}?`;
      return askFor("daily", {}, "clock", title, options, { say: `${either}?` });
    }
    if (clock !== undefined) {
      const moved = setDaily(bench, { hour: clock.hour, minute: clock.minute }, now);
      const title = `The daily message comes at ${showTime(clock)}.`;
      return { bench: moved, reply: dailyReply(moved, title, title) };
    }
    if (state !== undefined) {
      const turned = setDaily(bench, { on: state === "on" }, now);
      const title = `The daily message is ${state}.`;
      return { bench: turned, reply: dailyReply(turned, title, title) };
    }
    if (rollDays !== undefined) {
      const changed = setDaily(bench, { rollDays }, now);
      const title = `I mention film that has waited ${rollDays} days.`;
      return { bench: changed, reply: dailyReply(changed, title, title) };
    }
    return dailyReply(bench, "The daily message", "The daily message is on the screen.");
  },
});
