import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { nothingMixed, walkOn } from "../src/commands/walk-words.ts";
import { called } from "../src/domain/session/mixing-walk.ts";

export const clearCommand = defineCommand({
  name: "clear",
  summary: "While mixing: the last part has dissolved.",
  topic: "mix",
  sentences: ["(clear|it is clear|all clear|dissolved|it is dissolved)"],
  examples: ["clear"],
  fields: z.object({}),
  changes: true,
  values: {
    bath: "bath being mixed",
    done: "what is in, in order",
    due: "what comes next",
    total_ml: "volume mixed, mL, at the end",
  },
  run({ bench, now }) {
    const { mixing } = bench;
    return mixing === undefined ? nothingMixed() : walkOn(bench, called(mixing), now);
  },
});
