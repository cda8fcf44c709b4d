import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { leftCommand } from "./left.ts";

export const whatNowCommand = defineCommand({
  name: "what now",
  summary: "Where the run stands and what comes next, and the word for when it went wrong.",
  topic: "run",
  sentences: [
    "[and|so|ok] (what now|now what)",
    "what do i do now",
    "what should (i|we) do [now|next]",
  ],
  examples: ["what now", "what do i do now"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: leftCommand.values,
  run(at) {
    const { reply } = leftCommand.handle(at, {});
    const wet = liveRuns(at.bench).some(({ stages }) =>
      stages.some(({ inAt }) => inAt !== undefined),
    );
    if (!wet) return reply;
    return {
      ...reply,
      lines: [...reply.lines, "Did something go wrong? Say trouble."],
    };
  },
});
