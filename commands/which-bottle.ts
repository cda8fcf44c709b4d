import { canDo, canDoFields, canDoValues } from "../src/commands/can-do.ts";
import { defineCommand } from "../src/commands/define-command.ts";

export const whichBottleCommand = defineCommand({
  name: "which bottle",
  summary: "Which bottle to use for a bath and some film, and whether the bottles can do it.",
  topic: "bottle",
  sentences: [
    "which bottle [is] [for|of] [this|it] [[the] {solution}] [(for|with) {film}]",
    "which {solution} [bottle] [shall i use|should i use|do i use|is best] [(for|with) {film}]",
    "which (bottle|one) (for|do i use|should i use|shall i use|can i use) [for] [{film}]",
    "which bottle [comes|goes] first",
    "(can|could) (i|we) (do|develop|process) {film} [tonight|today|now|this evening] [(in|with|from) {bottle}]",
    "[is there|have i|do i have|do we have] (enough|capacity) [{solution}] [left] for {film} [tonight|today]",
    "(will|can) {bottle} [still] (do|take) {film}",
  ],
  examples: ["can I do two 120 and a 135 tonight", "which bottle for developer"],
  fields: canDoFields,
  changes: false,
  values: canDoValues,
  run: canDo,
});
