import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { runMeant, withRun, withTank } from "../src/commands/tanks.ts";
import { standing } from "../src/domain/session/hear.ts";
import { answer } from "../src/reply/reply.ts";

export const holdCommand = defineCommand({
  name: "hold",
  summary: "Silence beats and chatter. It never stops a clock.",
  topic: "run",
  sentences: [
    ...withTank("(hold|hold on|hush|quiet|shush|pause|be quiet)"),
    ...withTank("(go on|carry on|speak|unhold|resume)"),
  ],
  examples: ["hold", "go on"],
  fields: z.object({ tank: z.string().optional() }),
  changes: true,
  aside: true,
  values: { tank: "tank", quiet: "true while beats are silent" },
  run({ bench, now }, { tank }) {
    const meant = runMeant(bench, tank);
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const quiet = !run.quiet;
    const at = standing(run, now);
    const running = at.kind === "in" ? ` The ${at.stage.bath} clock runs on.` : "";
    const title = quiet
      ? `${run.tank}: quiet.${running} I still say when to pour.`
      : `${run.tank}: I speak again.${running}`;
    return withRun(
      bench,
      { ...run, quiet },
      answer({
        title,
        lines: quiet ? ["Say go on to hear the beats again."] : [],
        say: quiet ? `Quiet.${running}` : "I speak again.",
        facts: { tank: run.tank, quiet },
      }),
    );
  },
});
