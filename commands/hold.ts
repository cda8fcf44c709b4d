import { z } from "zod";
import { defineCommand, type Handling, type Outcome } from "../src/commands/define-command.ts";
import { runMeant, withRun, withTank } from "../src/commands/tanks.ts";
import { standing } from "../src/domain/session/hear.ts";
import { answer, type Reply } from "../src/reply/reply.ts";
import { waitCommand } from "./wait.ts";

const values = { tank: "tank", quiet: "true while beats are silent" };
const fields = z.object({ tank: z.string().optional() });

export const holdCommand = defineCommand({
  name: "hold",
  summary: "Silence beats and chatter. It never stops a clock.",
  topic: "run",
  sentences: withTank("(hold|hold on|hush|quiet|shush|pause|be quiet)"),
  examples: ["hold"],
  fields,
  changes: true,
  aside: true,
  values,
  run(at, { tank }) {
    const meant = runMeant(at.bench, tank, "hold");
    if ("reply" in meant) return meant.reply;
    // Before a pour nothing is wet, and there the word means what people mean by it.
    const waiting = standing(meant.run, at.now).kind === "planned";
    if (waiting) return waitCommand.handle(at, { tank: meant.run.tank });
    return setQuiet(at, meant.run.tank, true);
  },
});

export const goOnCommand = defineCommand({
  name: "go on",
  summary: "Speak the beats again after hold.",
  topic: "run",
  sentences: withTank("(go on|carry on|speak|speak up|unhold|resume)"),
  examples: ["go on"],
  fields,
  changes: true,
  aside: true,
  values,
  run(at, { tank }) {
    const meant = runMeant(at.bench, tank, "go on");
    return "reply" in meant ? meant.reply : setQuiet(at, meant.run.tank, false);
  },
});

function setQuiet({ bench, now }: Handling, tank: string, quiet: boolean): Reply | Outcome {
  const meant = runMeant(bench, tank, quiet ? "hold" : "go on");
  if ("reply" in meant) return meant.reply;
  const { run } = meant;
  const at = standing(run, now);
  const running = at.kind === "in" ? ` The ${at.stage.bath} clock runs on.` : "";
  const reply = answer({
    title: quiet
      ? `${run.tank}: quiet.${running} I still say when to pour.`
      : `${run.tank}: I speak again.${running}`,
    lines: quiet ? ["Say go on to hear the beats again."] : [],
    say: quiet ? `Quiet.${running}` : "I speak again.",
    facts: { tank: run.tank, quiet },
  });
  return withRun(bench, { ...run, quiet }, reply);
}
