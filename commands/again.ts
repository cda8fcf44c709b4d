import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { answer } from "../src/reply/reply.ts";

export const againCommand = defineCommand({
  name: "again",
  summary: "Repeat the last cue while a bath is in, or the last answer.",
  topic: "run",
  sentences: ["(again|repeat|say [that] again|repeat that|what did you say|pardon|come again)"],
  examples: ["again"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { repeats: "kind of what is repeated", cue: "the cue it was" },
  run({ last, lastCue, bench }) {
    const wet = Object.values(bench.runs).some((run) => run.endedAt === undefined);
    const said = wet ? (lastCue ?? last) : (last ?? lastCue);
    if (said === undefined) {
      return answer({ title: "I have said nothing yet.", say: "I have said nothing yet." });
    }
    return answer({
      title: said.title,
      lines: said.lines,
      say: said.say,
      cautions: said.cautions,
      figures: {},
      facts: {
        repeats: said.kind,
        ...(said.facts.cue === undefined ? {} : { cue: said.facts.cue }),
      },
    });
  },
});
