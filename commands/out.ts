import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { leaveBath } from "../src/commands/leaving.ts";
import { runLeft, tankAt, withTank } from "../src/commands/tanks.ts";

export const outCommand = defineCommand({
  name: "out",
  summary: "The bath is out of the tank; the next pour begins.",
  topic: "run",
  sentences: [
    ...withTank(
      "(out|it is out|is out|all out|poured [it] out|drained [it]|emptied [it]|it is [all] emptied|empty|it is empty)",
    ),
    "[the] {solution} [is] out [[in] tank {tank}]",
  ],
  slots: { sure: "yes", which: "text" },
  examples: ["out", "north out"],
  fields: z.object({
    tank: z.string().optional(),
    solution: z.string().optional(),
    which: z.string().optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    tank: "tank",
    bath: "the bath that is out",
    next: "the bath to pour now, or null after the last",
    real_s: "how long it was in, s",
  },
  run({ bench, now }, { tank, solution, sure, which }) {
    const meant = runLeft(bench, tankAt(bench, tank, solution), now, "out");
    return "reply" in meant ? meant.reply : leaveBath(bench, meant.run, now, "out", sure, which);
  },
});
