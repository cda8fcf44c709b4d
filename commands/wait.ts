import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { runMeant, withRun, withTank } from "../src/commands/tanks.ts";
import { putOff, standing } from "../src/domain/session/hear.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const waitCommand = defineCommand({
  name: "wait",
  summary: "Put the next pour off until you say ready.",
  topic: "run",
  sentences: withTank(
    "(wait|not yet|not ready|put it off|one moment|[just] a moment|give me a minute)",
  ),
  examples: ["wait", "not yet"],
  fields: z.object({ tank: z.string().optional() }),
  changes: true,
  values: { tank: "tank", bath: "the bath that waits" },
  run({ bench, now }, { tank }) {
    const meant = runMeant(bench, tank, "wait");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const at = standing(run, now);
    if (at.kind === "in") {
      return refuse(
        "wet-clock",
        `The ${at.stage.bath} is on the film and its clock runs on. I cannot stop it.`,
        {
          say: `The ${at.stage.bath} clock runs on. I cannot stop it.`,
        },
      );
    }
    if (at.kind === "over") return refuse("over", `${run.tank} is over.`);
    const between = run.current > 0;
    return withRun(
      bench,
      putOff(run),
      answer({
        title: `${run.tank}: ${at.stage.bath} waits until you say ready. No clock is running.`,
        lines: between
          ? ["Film is wet: keep the tank closed and do not wait longer than you must."]
          : [],
        say: "Waiting. Say ready when you are.",
        facts: { tank: run.tank, bath: at.stage.bath },
      }),
    );
  },
});
