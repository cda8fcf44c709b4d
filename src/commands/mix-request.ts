import { z } from "zod";
import type { Batch } from "../domain/mixing/batch.ts";
import { dueVolume } from "../domain/mixing/due-volume.ts";
import type { Bath, MixRecipe, Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import { millilitres } from "../domain/units/quantity.ts";
import { plain, showVolume } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { batchOf, explainBatch } from "./batch-answer.ts";
import { askFor, confirm } from "./define-command.ts";
import { bathOn, sheetFor } from "./sheets.ts";

/** What the commands that speak of a batch read from a sentence. */
export const mixFields = {
  solution: z.string("Which bath: developer, blix, stabilizer?"),
  total: z
    .number("How much in all, with its unit?")
    .positive("A batch needs a volume above zero. Say how much in all, like 1 litre.")
    .max(200_000, "More than 200 litres is no bench batch. Say how much in all, like 1 litre.")
    .transform(millilitres),
  sheet: z.string().optional(),
  /** Split a powder all the same. */
  insist: z.boolean().optional(),
};

export type MixWanted = {
  readonly solution: string;
  readonly total: ReturnType<typeof millilitres>;
  readonly sheet?: string | undefined;
  readonly insist?: boolean | undefined;
};

export type MixFound = {
  readonly sheet: Sheet;
  readonly chosen: boolean;
  readonly bath: Bath;
  readonly mix: MixRecipe;
  readonly batch: Batch;
};

/** The batch a request means, or the question or refusal that stands in its way. */
export function findBatch(
  bench: Bench,
  command: string,
  wanted: MixWanted,
): MixFound | { readonly reply: Reply } {
  const found = mixingSheet(bench, wanted);
  if ("reply" in found) return found;
  const { sheet, chosen, bath, mix } = found;
  const batch = batchOf(mix, wanted.total, wanted.insist === true);
  if (batch.ok) return { sheet, chosen, bath, mix, batch: batch.value };
  const { error } = batch;
  if (error.kind === "powder-split") {
    if (wanted.insist === false) {
      return {
        reply: refuse("powder-split", `Then mix the whole ${showVolume(error.whole)}.`, {
          say: "Then mix the whole batch.",
        }),
      };
    }
    return {
      reply: confirm(command, wanted, "insist", `${explainBatch(error)} Insist?`, {
        say: "That splits a powder. Do you insist?",
        facts: { reason: "powder-split" },
      }),
    };
  }
  const lines =
    error.kind === "amount-unknown"
      ? [
          dueVolume(mix.total.value, wanted.total),
          "Say learn a sheet and read me the parts' volumes; then I can scale.",
        ]
      : [];
  return {
    reply: refuse(error.kind, explainBatch(error), {
      say:
        error.kind === "amount-unknown"
          ? "I need the parts' volumes for a part batch."
          : "That does not work out. See the lines.",
      lines,
      facts: { bath: bath.name, sheet: sheet.name },
      figures: { total_ml: { value: wanted.total, origin: { kind: "told" } } },
    }),
  };
}

function mixingSheet(
  bench: Bench,
  wanted: MixWanted,
): Omit<MixFound, "batch"> | { readonly reply: Reply } {
  const inUse = sheetFor(bench, "mixing", wanted.sheet);
  if (inUse === undefined) {
    return {
      reply: refuse("no-such-sheet", "I have no sheet of that name. Say sheets for those I have."),
    };
  }
  const { sheet, chosen } = inUse;
  const on = bathOn(sheet, wanted.solution);
  if (on !== undefined && "several" in on) {
    const names = on.several.map(({ name }) => name);
    return {
      reply: askFor(
        "batch",
        wanted,
        "solution",
        `Which ${wanted.solution}: ${names.join(" or ")}?`,
        names,
      ),
    };
  }
  const bath = on?.bath;
  if (bath?.mix === undefined) {
    const mixed = sheet.baths.filter((one) => one.mix !== undefined).map(({ name }) => name);
    const has = mixed.length === 0 ? "no mixing figures" : `figures for ${mixed.join(", ")}`;
    return {
      reply: refuse(
        "no-figures",
        `The ${sheet.name} sheet has ${has}, none for ${wanted.solution}. Teach me yours: learn a sheet.`,
        {
          say: `No figures for ${wanted.solution}. Say learn a sheet.`,
          facts: { sheet: sheet.name },
        },
      ),
    };
  }
  return { sheet, chosen, bath, mix: bath.mix };
}

export const batchTitle = ({ sheet, bath, batch }: MixFound): string =>
  `${showVolume(batch.total)} of ${bath.name}, ${sheet.name}${batch.scale === 1 ? "" : ` × ${plain(batch.scale, 3)}`}`;
