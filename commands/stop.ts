import { z } from "zod";
import { thenAsk } from "../src/commands/after-run.ts";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { runMeant } from "../src/commands/tanks.ts";
import { finish } from "../src/domain/session/advance.ts";
import { standing } from "../src/domain/session/hear.ts";
import { answer } from "../src/reply/reply.ts";

export const stopCommand = defineCommand({
  name: "stop",
  summary: "Give a run up; film that went in stays counted.",
  topic: "run",
  sentences: [
    "(stop|abort|give up) [it|this|the] [run|process|session] [[in] [the] [tank] {tank} [tank]]",
    "cancel [the] run [[in] tank {tank}]",
  ],
  slots: { sure: "yes" },
  examples: ["stop", "stop tank north"],
  fields: z.object({ tank: z.string().optional(), sure: z.boolean().optional() }),
  changes: true,
  values: { tank: "tank", counted: "true when film had gone into a bottle's bath" },
  run({ bench, now }, { tank, sure }) {
    const meant = runMeant(bench, tank, "stop");
    if ("reply" in meant) return meant.reply;
    const { run } = meant;
    const wet = run.stages.some((stage) => stage.inAt !== undefined);
    const at = standing(run, now);
    if (wet && sure === undefined) {
      const bath = at.kind === "over" ? "" : at.stage.bath;
      return confirm(
        "stop",
        { tank: run.tank },
        "sure",
        `${run.tank}: film is wet (${bath}). Stop timing it?`,
        { say: "Film is wet. Stop timing it?", lines: ["The bath works on; only my clock stops."] },
      );
    }
    if (sure === false) return answer({ title: "Then the run goes on.", say: "The run goes on." });
    const counted = run.counted.length > 0;
    const stopped = finish(run, now, "stopped");
    const after = { ...bench, runs: { ...bench.runs, [run.id]: stopped } };
    const reply = answer({
      title: `${run.tank}: run stopped. No clock is running for it.`,
      lines: counted
        ? ["Film had gone in, so its bottles keep the count. Say undo to go on."]
        : wet
          ? ["No bottle was named, so none was counted."]
          : ["Nothing went in, so no bottle was counted."],
      say: "Run stopped.",
      facts: { tank: run.tank, counted },
    });
    return { bench: after, reply: thenAsk(after, stopped, now, reply) };
  },
});
