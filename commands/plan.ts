import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { planFigures, planLines, standingLine } from "../src/commands/run-lines.ts";
import { runMeant, withTank } from "../src/commands/tanks.ts";
import { standing } from "../src/domain/session/hear.ts";
import { rehearsalMark } from "../src/domain/session/rehearsal.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { later } from "../src/domain/units/quantity.ts";
import { answer } from "../src/reply/reply.ts";

export const planCommand = defineCommand({
  name: "plan",
  summary: "The plan of the open run with its clock times.",
  topic: "run",
  sentences: withTank("[show] [me] [the] (plan|schedule|clock times|times)"),
  examples: ["plan"],
  fields: z.object({ tank: z.string().optional() }),
  changes: false,
  aside: true,
  values: {
    tank: "tank",
    stages:
      "one entry a bath: bath, time_s, sense, temp_c, tolerance_c, pour_out_s, agitate_at_s, vent_at_s",
    time_s: "time of the first bath, s",
    temp_c: "temperature of the first bath, °C",
    total_s: "the whole plan, s",
  },
  run({ bench, now }, { tank }) {
    const meant = runMeant(bench, tank, "plan");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const mark = rehearsalMark(run);
    const at = standing(run, now);
    const soon = later(now, bench.lead);
    const waits = at.kind === "planned" && at.pourAt === undefined;
    return answer({
      title: `${run.tank}: ${run.title}, plan`,
      lines: [
        ...(mark === undefined ? [] : [mark]),
        ...(waits
          ? [
              `It waits: clock times if ${at.stage.bath} is poured at ${clockTime(soon, bench.zone)}.`,
            ]
          : []),
        ...planLines(bench, run, soon),
        standingLine(bench, run, now),
      ],
      say: standingLine(bench, run, now),
      figures: planFigures(run),
      facts: { tank: run.tank },
    });
  },
});
