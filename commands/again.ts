import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { answer } from "../src/reply/reply.ts";

export const againCommand = defineCommand({
  name: "again",
  summary: "Repeat what I said last, cue or answer.",
  topic: "run",
  sentences: [
    "(again|[can you|could you] repeat [that|it]|say [that|it] again|what did you say|what was that|pardon|come again)",
  ],
  examples: ["again"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { repeats: "kind of what is repeated", cue: "the cue it was" },
  run({ last: said }) {
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
