import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { formulas } from "../src/data/formulas.ts";
import { showOrigin } from "../src/domain/origin.ts";
import { answer } from "../src/reply/reply.ts";

export const formulasCommand = defineCommand({
  name: "formulas",
  summary: "The published formulas I can scale.",
  topic: "arithmetic",
  sentences: [
    "[list|show] [all] [scratch] formulas",
    "(what|which) [scratch] formulas (do you (have|know)|are there|can you scale)",
  ],
  examples: ["formulas"],
  fields: z.object({}),
  changes: false,
  values: {
    formulas:
      "one entry each: formula (its trade name), bath, evidence (how well the source was seen)",
  },
  run() {
    return answer({
      title: `${formulas.length} formulas`,
      lines: formulas.map(
        ({ name, bath, origin }) =>
          `${name}  ${bath}${origin.kind === "from memory" ? ", from memory: check it" : ""}`,
      ),
      say: `I have ${formulas
        .slice(0, 8)
        .map(({ name }) => name)
        .join(", ")}.`,
      facts: {
        formulas: formulas.map(({ name, bath, evidence }) => ({ formula: name, bath, evidence })),
      },
      working: formulas.map(({ name, origin }) => `${name}: ${showOrigin(origin)}.`),
    });
  },
});
