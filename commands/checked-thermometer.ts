import { z } from "zod";
import { dailyReply, dailyValues } from "../src/commands/daily-lines.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { setDaily } from "../src/commands/set-daily.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";

export const checkedThermometerCommand = defineCommand({
  name: "checked thermometer",
  summary: "Note that the thermometer was compared; the next check is due in six months.",
  topic: "reminder",
  sentences: [
    "[i|we] [have] (checked|compared|calibrated) [the|my] thermometer [today]",
    "thermometer [is|was] (checked|compared|calibrated) [today]",
  ],
  examples: ["I checked the thermometer"],
  fields: z.object({}),
  changes: true,
  values: dailyValues,
  run({ bench, now }) {
    const noted = setDaily(bench, { thermometerOn: dateOf(now, bench.zone) }, now);
    const title = "Thermometer checked today. I ask again in six months.";
    return { bench: noted, reply: dailyReply(noted, title, title) };
  },
});
