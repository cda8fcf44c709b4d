import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { spoiledWords } from "../src/commands/walk-words.ts";
import { answer } from "../src/reply/reply.ts";

export const wrongPartCommand = defineCommand({
  name: "wrong part",
  summary: "A wrong part went in while mixing: stop, and what to do.",
  topic: "mix",
  sentences: [
    "[oops|no|oh no|stop] [(that was|that is|it was|i (put|poured|added|tipped|used) [in]) [the]] wrong part [in|went in|is in]",
    "[oops|no|oh no|stop] [i|we] [have] (put|poured|added|tipped) [in] [the] {part} [in] [too early|first|twice|already] (by mistake|by accident|accidentally|in error)",
    "[oops|no|oh no|stop] {part} [went|is] in (by mistake|by accident|too early|twice|already)",
    "[oops|no|oh no|stop] [i|we] [accidentally] (put|poured|added|tipped) [in] [the] {part} [in] (too early|twice)",
  ],
  slots: { part: "partName" },
  examples: ["wrong part", "I put C in by mistake"],
  fields: z.object({ part: z.string().max(30).optional() }),
  changes: false,
  aside: true,
  values: { bath: "bath being mixed, or null", named: "the part that was said, or null" },
  run({ bench }, { part }) {
    const { mixing } = bench;
    const named =
      part === undefined
        ? "a wrong part"
        : part === "water"
          ? "the water"
          : `part ${part.toUpperCase()}`;
    return answer({
      title: `STOP. With ${named} in by mistake, do not use this on film. Nothing else goes in.`,
      lines: [
        "Film it might spoil cannot be done again; a batch can.",
        "Do not cap it tight: parts that do not belong together can warm or gas. Window open.",
        ...spoiledWords,
      ],
      say: "Stop. Nothing else goes in. Do not use it on film.",
      facts: { bath: mixing?.bath ?? null, named: part ?? null },
    });
  },
});
