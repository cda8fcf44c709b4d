import { z } from "zod";
import {
  batchFigures,
  batchLines,
  batchValues,
  batchWorking,
  mixCautions,
} from "../src/commands/batch-answer.ts";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { batchTitle, findBatch, mixFields } from "../src/commands/mix-request.ts";
import { aboutSheet } from "../src/commands/sheets.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { isDeveloper, spoilsDeveloper } from "../src/domain/process/sheet.ts";
import type { MixStep } from "../src/domain/session/mixing-walk.ts";
import { showCelsius, showVolume } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

export const mixCommand = defineCommand({
  name: "mix",
  summary: "Mix a bath part by part; I wait for each word and stop a wrong one.",
  topic: "mix",
  sentences: [
    "(mix|make [up]|prepare) [me|us] [a] {total} [of] {solution} <in [the] {vessel} / (by|from|with) [the] {sheet} [sheet]>",
    "(mix|make [up]|prepare) [the|a batch of] {solution} <in [the] {vessel} / (by|from|with) [the] {sheet} [sheet]>",
    "(mix|make [up]|prepare) [the] {solution} {total} <in [the] {vessel} / (by|from|with) [the] {sheet} [sheet]>",
    "[start] (mixing|mix)",
  ],
  slots: { total: "volume", insist: "yes", sure: "yes", vessel: "newName" },
  examples: ["mix 1 litre of developer", "mix a quart of blix in the tall jug"],
  fields: z.object({
    ...mixFields,
    vessel: z.string().max(30, "Give the vessel a short name, like tall jug.").optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: { ...batchValues, vessel: "vessel it is mixed in", due: "what goes in first" },
  run({ bench, now }, wanted) {
    const found = findBatch(bench, "mix", wanted);
    if ("reply" in found) return found.reply;
    const { sheet, chosen, bath, mix, batch } = found;
    const vessel = (wanted.vessel ?? "jug").toLowerCase();
    const before = ownValue(bench.vessels, vessel);
    if (bench.mixing !== undefined && wanted.sure === undefined) {
      return confirm(
        "mix",
        wanted,
        "sure",
        `${bench.mixing.bath} is half mixed. Give it up and mix ${bath.name}?`,
      );
    }
    if (wanted.sure === false) return answer({ title: "Left as it was.", say: "Left as it was." });
    if (
      wanted.sure === undefined &&
      isDeveloper(bath.kind) &&
      before !== undefined &&
      spoilsDeveloper(before.kind)
    ) {
      return confirm(
        "mix",
        wanted,
        "sure",
        `Stop. ${before.bath} was mixed in the ${vessel}. A trace of it ruins developer. Washed, stirrer and thermometer too?`,
        {
          say: `${before.bath} was in the ${vessel}. Washed it?`,
          lines: ["Better: another vessel. Say mix developer in the small jug."],
          facts: { vessel, reason: "vessel-held-blix" },
        },
      );
    }
    const steps: MixStep[] = [
      { kind: "water", name: "water", ml: batch.startWater, temperature: mix.temperature?.value },
      ...batch.parts.map(
        ({ name, form, amount }): MixStep => ({
          kind: "part",
          name,
          form,
          ml: amount?.kind === "volume" ? amount.ml : undefined,
          g: amount?.kind === "mass" ? amount.g : undefined,
        }),
      ),
      { kind: "top-up", name: "mark", ml: batch.total },
    ];
    const warned = mixCautions(batch, bath.kind, bench, now);
    return {
      bench: {
        ...bench,
        mixing: {
          sheet: sheet.id,
          bath: bath.name,
          kind: bath.kind,
          total: batch.total,
          vessel,
          steps,
          done: 0,
          stirring: false,
          startedAt: now,
        },
        cautioned: warned.cautioned,
      },
      reply: answer({
        title: `Mixing ${batchTitle(found)}, in the ${vessel}`,
        lines: [
          ...batchLines(batch, mix, sheet.country ?? bench.country),
          "One part at a time. Say water in when the water is in the vessel.",
        ],
        say: `${showVolume(batch.startWater)} of water first${mix.temperature === undefined ? "" : `, at ${showCelsius(mix.temperature.value)}`}. Say water in.`,
        figures: batchFigures(batch, mix),
        facts: { sheet: sheet.name, bath: bath.name, vessel, due: "water" },
        cautions: [...aboutSheet(sheet, chosen), ...warned.cautions],
        working: batchWorking(batch, mix, sheet),
      }),
    };
  },
});
