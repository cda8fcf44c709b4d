import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { bathWithBottle, standingLine } from "../src/commands/run-lines.ts";
import { runMeant, withRun, withTank } from "../src/commands/tanks.ts";
import { openWindow, standing } from "../src/domain/session/hear.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const readyCommand = defineCommand({
  name: "ready",
  summary: "Open the pour window now.",
  topic: "run",
  sentences: withTank("(ready|go|pour|pouring|i am ready)"),
  examples: ["ready", "north ready"],
  fields: z.object({ tank: z.string().optional() }),
  changes: true,
  values: { tank: "tank", bath: "the bath to pour now" },
  run({ bench, now }, { tank }) {
    const meant = runMeant(bench, tank, "ready");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const at = standing(run, now);
    if (at.kind === "in") {
      return refuse("already-in", standingLine(bench, run, now), {
        say: `The ${at.stage.bath} is in already.`,
        lines: ["Say out when it leaves, or left for the time."],
      });
    }
    if (at.kind === "over") return refuse("over", `${run.tank} is over.`);
    const opened = at.kind === "pouring" ? run : openWindow(run, now);
    return withRun(
      bench,
      opened,
      answer({
        title: `${run.tank}: pour ${bathWithBottle(bench, at.stage)}.`,
        lines: ["Say in the moment the tank is full: the time counts from then."],
        say: `Pour ${at.stage.bath}. Say in when full.`,
        facts: { tank: run.tank, bath: at.stage.bath },
      }),
    );
  },
});
