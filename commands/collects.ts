import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { localCodes } from "../src/data/disposal.ts";
import { answer } from "../src/reply/reply.ts";

export const collectsCommand = defineCommand({
  name: "collects",
  summary: "Tell me which used baths your council collects.",
  topic: "bottle",
  sentences: [
    "[the|our|my] (council|town|city|county|depot|recycling centre|recycling center) (collects|takes|accepts) [used|old] {solution} [too|and {other}]",
  ],
  slots: { other: "bath" },
  examples: ["the council collects fixer"],
  fields: z.object({ solution: z.string("Which bath?"), other: z.string().optional() }),
  changes: true,
  values: { collected: "kinds of bath that are collected" },
  run({ bench }, { solution, other }) {
    const before = bench.waste?.collected ?? [];
    const collected = [...new Set([...before, solution, ...(other === undefined ? [] : [other])])];
    return {
      bench: { ...bench, waste: { ...bench.waste, collected } },
      reply: answer({
        title: `Noted: your council collects ${collected.join(", ")}.`,
        lines: [localCodes],
        say: `Noted: ${solution} is collected.`,
        facts: { collected },
      }),
    };
  },
});
