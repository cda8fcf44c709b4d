import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { answer } from "../src/reply/reply.ts";

/** With a question open the conversation takes the word itself; this is what is left. */
export const cancelCommand = defineCommand({
  name: "cancel",
  summary: "Put the open question aside.",
  topic: "bench",
  sentences: ["(cancel|never mind|forget it|leave it|no|nope)"],
  examples: ["cancel"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { open: "what could be stopped: runs, mixing, teaching" },
  run({ bench }) {
    const open = [
      ...liveRuns(bench).map((run) =>
        `stop ${run.tank === "Tank" ? "" : `tank ${run.tank}`}`.trim(),
      ),
      ...(bench.mixing === undefined ? [] : ["stop mixing"]),
      ...(bench.draft === undefined ? [] : ["stop teaching"]),
    ];
    return answer({
      title: "No question is open.",
      lines: open.map((words) => `Say ${words} to give that up.`),
      say: open.length === 0 ? "No question is open." : `No question is open. Say ${open[0]}?`,
      facts: { open },
    });
  },
});
