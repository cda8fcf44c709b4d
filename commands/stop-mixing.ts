import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { nothingMixed } from "../src/commands/walk-words.ts";
import { answer } from "../src/reply/reply.ts";

export const stopMixingCommand = defineCommand({
  name: "stop mixing",
  summary: "Give up what is being mixed.",
  topic: "mix",
  sentences: ["(stop|cancel|give up|abandon) (mixing|the mix|mix)"],
  examples: ["stop mixing"],
  fields: z.object({}),
  changes: true,
  values: { bath: "bath given up", done: "what had gone in" },
  run({ bench }) {
    const { mixing, ...rest } = bench;
    if (mixing === undefined) return nothingMixed();
    const done = mixing.steps.slice(0, mixing.done).map(({ name }) => name);
    return {
      bench: rest,
      reply: answer({
        title: `${mixing.bath} given up with ${done.length === 0 ? "nothing" : done.join(", ")} in.`,
        lines: ["Do not use it on film. Wash the vessel before anything else goes in."],
        say: "Given up. Do not use it on film.",
        facts: { bath: mixing.bath, done },
      }),
    };
  },
});
