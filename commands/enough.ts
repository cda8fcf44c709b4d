import { z } from "zod";
import { amountField, countryFor, rawAmount } from "../src/commands/amounts.ts";
import { recipeOf, showAmountFor } from "../src/commands/batch-answer.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { worked } from "../src/commands/figures.ts";
import { aboutSheet, bathOn, sheetFor } from "../src/commands/sheets.ts";
import { scaleAmount, showAmount, sizeOf, volume } from "../src/domain/mixing/amount.ts";
import {
  explainLargestBatch,
  largestBatch,
  type PartLeft,
} from "../src/domain/mixing/largest-batch.ts";
import { checkWanted, explainWanted } from "../src/domain/mixing/wanted.ts";
import { showOrigin } from "../src/domain/origin.ts";
import type { Sheet } from "../src/domain/process/sheet.ts";
import { plain, showVolume, showVolumeFor } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const what = "{left} [of] [part] {part} [and {otherLeft} [of] [part] {otherPart}]";
/** Where "2 rolls" could be meant as well, only what is plainly said of a part. */
const plainly = "{left} (of [the] part|of|part) {part} [and {otherLeft} [of] [part] {otherPart}]";
const have = "(i have|there is|i only have|i have got|i have only)";
const makes =
  "(how much|what) [{solution}] (can (i|we) (mix|make)|(does|will) (that|it) (make|give|do))";
const by = "[(by|from|with|on) [the] {sheet} [sheet]]";

export const enoughCommand = defineCommand({
  name: "enough",
  summary: "The largest batch that what is left of a part still makes.",
  topic: "mix",
  sentences: [
    `how much [of] {solution} (can i|could i|can we|will i|do i) (mix|make|get) [up] (from|with|out of|using|if i have) ${what} [left] ${by}`,
    `how much (can i|could i|can we) (mix|make|get) [up] (from|with|out of|using|if i have) ${what} [of {solution}] [left] ${by}`,
    `(largest|biggest) [batch|volume|mix] [of] [{solution}] (with|from|out of|for|if i have) ${what} [left] ${by}`,
    `[how much is|how far is|what is] [there] enough [{solution}] (for|from|in|with) ${plainly} [left] ${by}`,
    `${have} ${plainly} left [of {solution}] [how much can i (mix|make)] ${by}`,
    `${have} ${plainly} left [of {solution}] ${makes} ${by}`,
    `${have} ${plainly} [of {solution}] ${makes} ${by}`,
    "(largest batch|how much can i (mix|make)) [of] [{solution}]",
    // Bare, the word ends the questions of a diagnosis.
    "enough [of] {solution}",
  ],
  slots: {
    left: "amount",
    otherLeft: "amount",
    part: "newName",
    otherPart: "newName",
  },
  examples: [
    "how much developer can I mix from 60 ml of part A",
    "largest batch of blix with 90 ml B left",
  ],
  fields: z.object({
    left: amountField("How much is left, with its unit?"),
    part: z
      .string("Left of which part? Say it like A.")
      .max(40, "Name the part as the sheet does."),
    otherLeft: amountField("How much is left of the other?").optional(),
    otherPart: z.string().max(40, "Name the part as the sheet does.").optional(),
    solution: z.string().optional(),
    sheet: z.string().optional(),
  }),
  changes: false,
  values: {
    sheet: "sheet it comes from",
    bath: "bath",
    total_ml: "largest volume, mL",
    limited_by: "the part that runs out first",
    scale: "batch over the sheet's batch",
    whole_total_ml: "largest volume out of whole batches, mL; only when the bath has a powder",
    parts: "what each part of it takes, in order: name, ml or g",
  },
  run({ bench }, wanted) {
    const inUse = sheetFor(bench, "mixing", wanted.sheet);
    if (inUse === undefined) {
      return refuse("no-such-sheet", "I have no sheet of that name. Say sheets for those I have.");
    }
    const { sheet, chosen } = inUse;
    const left = [
      { part: bare(wanted.part), amount: wanted.left },
      ...(wanted.otherLeft === undefined || wanted.otherPart === undefined
        ? []
        : [{ part: bare(wanted.otherPart), amount: wanted.otherLeft }]),
    ];
    const names = candidates(sheet, left);
    const [only] = names;
    const solution = wanted.solution ?? (names.length === 1 ? only : undefined);
    if (solution === undefined) {
      const mixed = names.length > 0 ? names : candidates(sheet, []);
      const raw = {
        ...wanted,
        left: rawAmount(wanted.left),
        otherLeft: rawAmount(wanted.otherLeft),
      };
      return askFor("enough", raw, "solution", `Which bath: ${mixed.join(" or ")}?`, mixed);
    }
    const on = bathOn(sheet, solution);
    if (on !== undefined && "several" in on) {
      const several = on.several.map(({ name }) => name);
      const raw = {
        ...wanted,
        left: rawAmount(wanted.left),
        otherLeft: rawAmount(wanted.otherLeft),
      };
      return askFor(
        "enough",
        raw,
        "solution",
        `Which ${solution}: ${several.join(" or ")}?`,
        several,
      );
    }
    const mix = on?.bath.mix;
    if (on === undefined || mix === undefined) {
      return refuse(
        "no-figures",
        `The ${sheet.name} sheet has no mixing figures for ${solution}. Teach me yours: learn a sheet.`,
        {
          say: `No figures for ${solution}. Say learn a sheet.`,
          facts: { sheet: sheet.name },
        },
      );
    }
    for (const { amount } of left) {
      const wrong = checkWanted(amount);
      if (wrong?.kind === "too-large") return declined(wrong, explainWanted(wrong));
    }
    const recipe = recipeOf(mix);
    const found = largestBatch(recipe, left);
    const facts = { sheet: sheet.name, bath: on.bath.name };
    if (!found.ok) {
      const unknown = found.error.kind === "amount-unknown";
      return declined(found.error, explainLargestBatch(found.error), {
        ...(unknown ? { say: "I need the parts' volumes for that. Say learn a sheet." } : {}),
        ...(found.error.kind === "unknown-part"
          ? { say: `Name a part of the sheet: ${found.error.parts.join(", ")}.` }
          : {}),
        ...(found.error.kind === "nothing-left"
          ? { say: "None left makes no batch. Give an amount above zero." }
          : {}),
        lines: unknown
          ? ["Say learn a sheet and read me the parts' volumes; then I can tell."]
          : [],
        facts,
      });
    }
    const { total, limitedBy, scale, wholeTotal, splits } = found.value;
    const tooMuch = checkWanted(volume(total));
    if (tooMuch !== undefined) return declined(tooMuch, explainWanted(tooMuch));
    const country = countryFor(bench) ?? sheet.country;
    const takes = recipe.parts.flatMap(({ name, amount }) =>
      amount === undefined ? [] : [{ name, amount: scaleAmount(amount, scale) }],
    );
    const powder = recipe.parts.some(({ form }) => form === "powder");
    return answer({
      title: `Enough for ${showVolumeFor(total, country)} of ${on.bath.name}, ${sheet.name} × ${plain(scale, 3)}`,
      lines: [
        ...takes.map(({ name, amount }) => `part ${name}  ${showAmountFor(amount, country)}`),
        `${limitedBy} runs out first; parts you did not name are taken to be there in plenty.`,
        ...(splits.length === 0
          ? []
          : [
              `That splits ${splits.join(", ")}, a powder. ${wholeTotal > 0 ? `Whole batches only: ${showVolumeFor(wholeTotal, country)}.` : "It is less than one whole batch."}`,
            ]),
      ],
      say: `Enough for ${showVolume(total)} of ${on.bath.name}.${splits.length === 0 ? "" : " It splits a powder."}`,
      figures: {
        total_ml: worked(total, "what is left over what the sheet's batch takes, times its volume"),
        scale: worked(
          scale,
          "what is left over what the sheet's batch takes, the least of the parts",
        ),
        parts: {
          value: takes.map(({ name, amount }) => ({
            name,
            ...(amount.kind === "volume" ? { ml: amount.ml } : { g: amount.g }),
          })),
          origin: mix.parts[0]?.origin ?? mix.total.origin,
        },
        ...(powder
          ? { whole_total_ml: worked(wholeTotal, "whole batches of the sheet only") }
          : {}),
      },
      facts: { ...facts, limited_by: limitedBy },
      cautions: aboutSheet(sheet, chosen),
      working: [
        ...left.map(({ part, amount }) => {
          const printed = recipe.parts.find(({ name }) => same(name, part))?.amount;
          return `${part}: ${showAmount(amount)} left${printed === undefined ? "" : ` of ${showAmount(printed)} a batch = ${plain(sizeOf(amount) / sizeOf(printed), 4)} batches`}.`;
        }),
        `A batch makes ${plain(mix.total.value, 2)} mL (${showOrigin(mix.total.origin)}).`,
      ],
    });
  },
});

const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** "part A left" is A. */
const bare = (part: string): string =>
  part
    .trim()
    .replace(/^(the |part )+/i, "")
    .replace(/\s+left$/i, "");

/** The baths that are mixed on a sheet and have all these parts. */
const candidates = (sheet: Sheet, left: readonly PartLeft[]): readonly string[] =>
  sheet.baths
    .filter(
      ({ mix }) =>
        mix !== undefined &&
        left.every(({ part }) => mix.parts.some(({ name }) => same(name, part))),
    )
    .map(({ name }) => name);
