import { z } from "zod";
import {
  batchFigures,
  batchLines,
  batchValues,
  batchWorking,
  mixCautions,
} from "../src/commands/batch-answer.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { batchTitle, findBatch, mixFields } from "../src/commands/mix-request.ts";
import { aboutSheet } from "../src/commands/sheets.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

export const batchCommand = defineCommand({
  name: "batch",
  summary: "What goes into a whole or part batch: water, parts in order, the mark.",
  topic: "mix",
  sentences: [
    "how much [hot|warm|start|starting] water [do i need|to start|goes in|to start with] [for|in|into|to make] [a] {total} [of] {solution} [(by|from|with|on) [the] {sheet} [sheet]]",
    "how much [hot|warm|start] water [do i need] (for|in) [a] [batch of] {solution} [(by|from) [the] {sheet} [sheet]]",
    "(how do (i|you|we) (mix|make)|how to (mix|make)) [a] {total} [of] {solution} [(by|from|with) [the] {sheet} [sheet]]",
    "(how do (i|you|we) (mix|make)|how to (mix|make)) {solution}",
    "(what goes (in|into)|what do i need for|recipe for|parts for|amounts for|batch|water for|show) [a] {total} [of] {solution} [(by|from|with) [the] {sheet} [sheet]]",
    "how much of [each] [part|parts] [do i need] for {total} [of] {solution}",
    "how (much|many) [of] [each] (part|parts) (for|in) {total} [of] {solution}",
    "{total} [of] {solution}",
    "{solution} {total}",
  ],
  slots: { total: "volume", insist: "yes" },
  examples: ["how much water for a quart of developer", "what goes into 650 ml of blix"],
  fields: z.object(mixFields),
  changes: false,
  values: batchValues,
  run({ bench, now }, wanted) {
    const found = findBatch(bench, "batch", wanted);
    if ("reply" in found) return found.reply;
    const { sheet, chosen, bath, mix, batch } = found;
    const country = sheet.country ?? bench.country;
    const warm =
      mix.temperature === undefined ? "" : `, ${Math.round(mix.temperature.value)} degrees`;
    return answer({
      title: batchTitle(found),
      lines: batchLines(batch, mix, country),
      say: `${showVolume(batch.startWater)} of water${warm}; parts in order, to ${showVolume(batch.total)}.`,
      figures: batchFigures(batch, mix),
      facts: { sheet: sheet.name, bath: bath.name },
      cautions: [
        ...aboutSheet(sheet, chosen),
        ...mixCautions(batch, bath.kind, bench, now).cautions,
      ],
      working: batchWorking(batch, mix, sheet),
    });
  },
});
