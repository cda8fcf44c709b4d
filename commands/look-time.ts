import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { clockSchema, halves, isOpen } from "../src/commands/set-daily.ts";
import { type LookTime, lookTimeOf } from "../src/domain/record/plan-looks.ts";
import { showTime } from "../src/domain/reminders/calendar.ts";
import { answer } from "../src/reply/reply.ts";

const days = "Give 0 to 30 days after the run.";

export const lookTimeCommand = defineCommand({
  name: "look time",
  summary: "When I ask for the first look: with the daily message, at an hour, or never.",
  topic: "reminder",
  sentences: [
    "[show] [the] (look time|time of [the] first look)",
    "(ask [me] [for]|remind me of|set|move) [the|a] first look [to] [at] {clock}",
    "(ask [me] [for]|remind me of|set|move) [the|a] first look [to] (after {days} days|{days} days (later|after))",
    "(ask [me] [for]|set|move) [the|a] first look [to] [in|on] [with] [the] {usual}",
    "{state} (ask|ask me) for [the|a] first look",
    "[turn|set] [the] first look [questions] {state}",
  ],
  slots: { days: "count", state: "word", usual: "nextMorning" },
  examples: ["ask for the first look at 21:00", "set first look after 2 days", "first look off"],
  fields: z.object({
    clock: clockSchema.optional(),
    days: z.number().int(days).min(0, days).max(30, days).optional(),
    usual: z.literal(true).optional(),
    state: z
      .enum(["on", "off", "do", "never", "stop", "no"], "On or off?")
      .transform((said) => said === "on" || said === "do")
      .optional(),
  }),
  changes: true,
  values: {
    when: "off, daily, or clock",
    days: "days after the run, with the daily message; missing otherwise",
    at: "HH:MM; missing unless it is asked for at an hour",
  },
  run({ bench }, { clock, days: after, usual, state }) {
    if (clock !== undefined && isOpen(clock)) {
      const options = halves(clock);
      const either = options.map(({ word }) => word).join(" or ");
      return askFor("look time", {}, "clock", `The first look at ${either}?`, options, {
        say: `${either}?`,
      });
    }
    const chosen: LookTime | undefined =
      clock !== undefined
        ? { kind: "clock", hour: clock.hour, minute: clock.minute }
        : after !== undefined
          ? { kind: "daily", days: after }
          : usual === true || state === true
            ? { kind: "daily", days: 1 }
            : state === false
              ? { kind: "off" }
              : undefined;
    const time = chosen ?? lookTimeOf(bench);
    const reply = answer({
      title: words(time),
      say: says(time),
      lines: ["Say first look at any time. I ask once for each run, and never while film is wet."],
      facts: {
        when: time.kind,
        ...(time.kind === "daily" ? { days: time.days } : {}),
        ...(time.kind === "clock" ? { at: showTime(time) } : {}),
      },
    });
    return chosen === undefined ? reply : { bench: { ...bench, lookTime: chosen }, reply };
  },
});

function words(time: LookTime): string {
  switch (time.kind) {
    case "off":
      return "I do not ask for a first look.";
    case "clock":
      return `I ask for the first look at ${showTime(time)}, the first one after the run.`;
    case "daily":
      return time.days === 1
        ? "I ask for the first look with the daily message, the day after the run."
        : `I ask for the first look with the daily message, ${time.days} days after the run.`;
  }
}

function says(time: LookTime): string {
  switch (time.kind) {
    case "off":
      return "I do not ask for a first look.";
    case "clock":
      return `First look at ${showTime(time)}.`;
    case "daily":
      return `First look ${time.days === 1 ? "the day" : `${time.days} days`} after a run.`;
  }
}
