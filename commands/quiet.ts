import { z } from "zod";
import { dailyReply, dailyValues } from "../src/commands/daily-lines.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { clockSchema, halves, isOpen, setDaily } from "../src/commands/set-daily.ts";
import { showTime, type TimeOfDay } from "../src/domain/reminders/calendar.ts";
import { refuse } from "../src/reply/reply.ts";

const minutes = ({ hour, minute }: TimeOfDay): number => hour * 60 + minute;

export const quietCommand = defineCommand({
  name: "quiet",
  summary: "Hours in which nothing comes but what was asked for at that very time.",
  topic: "reminder",
  sentences: [
    "[set] [be] quiet [hours] [from] {from} (to|till|until) {to}",
    "(do not disturb (me|us)|no messages) [from|between] {from} (to|till|until|and) {to}",
    "(no quiet hours|quiet hours off|turn off [the] quiet hours|stop [the] quiet hours)",
  ],
  slots: { from: "clock", to: "clock" },
  examples: ["quiet from 21:00 to 9:00", "no quiet hours"],
  fields: z.object({ from: clockSchema.optional(), to: clockSchema.optional() }),
  changes: true,
  values: dailyValues,
  run({ bench, now }, { from, to }) {
    if (from === undefined || to === undefined) {
      const none = setDaily(bench, { quietFrom: 0, quietTo: 0 }, now);
      return { bench: none, reply: dailyReply(none, "No quiet hours.", "No quiet hours.") };
    }
    if (isOpen(from)) {
      const options = halves(from);
      const either = options.map(({ word }) => word).join(" or ");
      const title = `Quiet from ${showTime(from)} to ${showTime(to)}: does it begin at ${either}?`;
      return askFor("quiet", { to }, "from", title, options, { say: `From ${either}?` });
    }
    if (isOpen(to)) {
      const options = halves(to);
      const either = options.map(({ word }) => word).join(" or ");
      const title = `Quiet from ${showTime(from)} until ${either}?`;
      return askFor("quiet", { from }, "to", title, options, { say: `Until ${either}?` });
    }
    const [start, end] = [from, to];
    if (minutes(start) === minutes(end)) {
      return refuse(
        "same-hour",
        "Quiet hours begin and end at different times. Say no quiet hours to have none.",
      );
    }
    const quiet = setDaily(bench, { quietFrom: minutes(start), quietTo: minutes(end) }, now);
    const title = `Quiet from ${showTime(start)} to ${showTime(end)}.`;
    return { bench: quiet, reply: dailyReply(quiet, title, title) };
  },
});
