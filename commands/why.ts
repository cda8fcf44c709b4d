import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { answer, originsOf } from "../src/reply/reply.ts";

export const whyCommand = defineCommand({
  name: "why",
  summary: "The working of the last answer: what went in, how, and where each figure comes from.",
  topic: "bench",
  sentences: [
    "(why|why is that|how so|how do you know|how come|show the working|where does that come from|explain [that])",
  ],
  examples: ["why"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: {
    about: "title of the answer explained",
    sources: "origin of each of its values, by key",
  },
  run({ figured: last }) {
    if (last === undefined) {
      return answer({ title: "I have given no figures yet.", say: "I have given no figures yet." });
    }
    const origins = originsOf(last);
    const lines =
      last.working.length > 0
        ? last.working
        : Object.entries(origins).map(([key, origin]) => `${key}: ${origin}`);
    return answer({
      title: `Why: ${last.title}`,
      lines: lines.length > 0 ? lines : ["I said no to that, and nothing was changed."],
      say:
        lines.length > 0
          ? "The working is on the screen."
          : "I said no to that. Nothing was changed.",
      facts: { about: last.title, sources: origins },
    });
  },
});
