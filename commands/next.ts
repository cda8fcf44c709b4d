import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { leaveBath } from "../src/commands/leaving.ts";
import { runLeft, withTank } from "../src/commands/tanks.ts";
import { awaitsOut, standing } from "../src/domain/session/hear.ts";
import { inCommand } from "./in.ts";
import { readyCommand } from "./ready.ts";

export const nextCommand = defineCommand({
  name: "next",
  summary: "Whatever comes next: ready, then in, then out.",
  topic: "run",
  sentences: withTank("(next|next (bath|step|stage|one)|done)"),
  slots: { sure: "yes", which: "text" },
  examples: ["next", "north next"],
  fields: z.object({
    tank: z.string().optional(),
    which: z.string().optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    tank: "tank",
    bath: "the bath it was about",
    next: "the bath to pour now, or null after the last",
    real_s: "how long it was in, s",
    time_s: "time of the bath that is in, s",
    pour_out: "ISO instant of the pour-out cue",
    end: "ISO instant of its end",
    agitate_for_s: "first agitation, s",
  },
  run(at, { tank, sure, which }) {
    const meant = runLeft(at.bench, tank, at.now, "next");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    switch (standing(run, at.now).kind) {
      case "planned":
        return readyCommand.handle(at, { tank: run.tank });
      case "pouring":
        if (awaitsOut(run)) return leaveBath(at.bench, run, at.now, "next", sure, which);
        return inCommand.handle(at, { tank: run.tank });
      default:
        return leaveBath(at.bench, run, at.now, "next", sure, which);
    }
  },
});
