import { type Amount, mass, volume } from "../domain/mixing/amount.ts";
import {
  type Batch,
  type BatchError,
  type BatchRecipe,
  explainBatch,
  explainBatchCaution,
  scaleBatch,
} from "../domain/mixing/batch.ts";
import { type Origin, showOrigin } from "../domain/origin.ts";
import type { MixRecipe, Sheet } from "../domain/process/sheet.ts";
import type { Result } from "../domain/result.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Country } from "../domain/units/conversions.ts";
import type { Instant, Millilitres } from "../domain/units/quantity.ts";
import { plain, showMass, showTemperature, showVolumeFor } from "../domain/units/show.ts";
import type { Json, Shown } from "../reply/reply.ts";
import { cautionsFor } from "./cautions.ts";

/** A sheet's recipe in the form the arithmetic takes. */
export const recipeOf = (mix: MixRecipe): BatchRecipe => ({
  total: mix.total.value,
  startWater: mix.startWater.value,
  parts: mix.parts.map(({ name, form, amount }) => ({
    name,
    form,
    amount: amount === undefined ? undefined : "ml" in amount ? volume(amount.ml) : mass(amount.g),
  })),
});

export const batchOf = (
  mix: MixRecipe,
  wanted: Millilitres,
  insist: boolean,
): Result<Batch, BatchError> => scaleBatch(recipeOf(mix), wanted, { insist });

export { explainBatch };

/** An amount for the eye; ounces behind where the bench or the sheet thinks in them. */
export const showAmountFor = (amount: Amount, country: Country | undefined): string =>
  amount.kind === "volume" ? showVolumeFor(amount.ml, country) : showMass(amount.g);

/** The batch as lines, in the order the hands need them, ending in measure and trim. */
export function batchLines(
  batch: Batch,
  mix: MixRecipe,
  country: Country | undefined,
): readonly string[] {
  const temperature = mix.temperature?.value;
  const warm = temperature === undefined ? "" : ` at ${showTemperature(temperature)}`;
  const share = batch.scale === 1 ? "" : `${plain(batch.scale, 3)} × `;
  return [
    `start water  ${showVolumeFor(batch.startWater, country)}${warm}`,
    ...batch.parts.map(({ name, form, amount }) => {
      const much = amount === undefined ? `${share}all of it` : showAmountFor(amount, country);
      return `part ${name}  ${much}${form === "powder" ? ", powder" : ""}; stir until clear`;
    }),
    batch.topUp === undefined
      ? `top up TO the ${showVolumeFor(batch.total, country)} mark`
      : `top up TO the ${showVolumeFor(batch.total, country)} mark, about ${showVolumeFor(batch.topUp, country)}`,
    "Measure the temperature when it is mixed, and trim.",
  ];
}

export function batchFigures(batch: Batch, mix: MixRecipe): Record<string, Shown> {
  const scaled: Origin =
    batch.scale === 1
      ? mix.startWater.origin
      : {
          ...mix.startWater.origin,
          source: `${mix.startWater.origin.source ?? showOrigin(mix.startWater.origin)}, scaled × ${plain(batch.scale, 4)}`,
        };
  const parts: Json[] = batch.parts.map(({ name, form, amount }) => ({
    name,
    form,
    ...(amount === undefined ? {} : amount.kind === "volume" ? { ml: amount.ml } : { g: amount.g }),
  }));
  return {
    total_ml: { value: batch.total, origin: { kind: "told" } },
    water_ml: { value: batch.startWater, origin: scaled },
    ...(mix.temperature === undefined
      ? {}
      : { temp_c: { value: mix.temperature.value, origin: mix.temperature.origin } }),
    parts: { value: parts, origin: mix.parts[0]?.origin ?? scaled },
    ...(batch.topUp === undefined
      ? {}
      : {
          top_up_ml: {
            value: batch.topUp,
            origin: { kind: "computed", source: "total less start water less liquid parts" },
          },
        }),
    scale: {
      value: batch.scale,
      origin: { kind: "computed", source: "wanted total over the sheet's total" },
    },
  };
}

export const batchValues: Readonly<Record<string, string>> = {
  sheet: "sheet it comes from",
  bath: "bath",
  total_ml: "volume made, mL",
  water_ml: "start water, mL",
  temp_c: "start water temperature, °C; missing when the sheet has none",
  parts:
    "in order: name, form (liquid or powder), ml or g; neither when only the whole part is known",
  top_up_ml: "water to the mark after the parts, mL; missing when a part's volume is not known",
  scale: "batch over the sheet's batch",
};

export function batchWorking(batch: Batch, mix: MixRecipe, sheet: Sheet): readonly string[] {
  return [
    `The ${sheet.name} sheet makes ${plain(mix.total.value, 2)} mL (${showOrigin(mix.total.origin)}${mix.total.printed === undefined ? "" : `, printed ${mix.total.printed}`}).`,
    `Scale: ${plain(batch.total, 2)} / ${plain(mix.total.value, 2)} = ${plain(batch.scale, 4)}.`,
    `Start water: ${plain(mix.startWater.value, 2)} × ${plain(batch.scale, 4)} = ${plain(batch.startWater, 2)} mL (${showOrigin(mix.startWater.origin)}${mix.startWater.printed === undefined ? "" : `, printed ${mix.startWater.printed}`}).`,
    ...batch.parts.map(({ name, amount }, index) => {
      const printed = mix.parts[index];
      const origin = printed === undefined ? "" : ` (${showOrigin(printed.origin)})`;
      if (amount === undefined) return `Part ${name}: the whole part as supplied${origin}.`;
      return `Part ${name}: × ${plain(batch.scale, 4)} = ${amount.kind === "volume" ? `${plain(amount.ml, 2)} mL` : `${plain(amount.g, 2)} g`}${origin}.`;
    }),
    batch.topUp === undefined
      ? "Top up to the mark: how much is not known before, since a part's volume is not."
      : `Top up: ${plain(batch.total, 2)} less water and liquid parts = ${plain(batch.topUp, 2)} mL.`,
    ...(mix.temperature === undefined
      ? []
      : [
          `Temperature: ${showTemperature(mix.temperature.value)} (${showOrigin(mix.temperature.origin)}${mix.temperature.printed === undefined ? "" : `, printed ${mix.temperature.printed}`}).`,
        ]),
  ];
}

/** What is said with a mix: about the arithmetic, the powder, and the person. */
export function mixCautions(
  batch: Batch,
  kind: string,
  bench: Bench,
  now: Instant,
): { readonly cautions: readonly string[]; readonly cautioned: Bench["cautioned"] } {
  const powder = batch.parts.some(({ form }) => form === "powder") ? ["powder"] : [];
  const warned = cautionsFor(bench, ["mixing", ...powder, kind], "mix", now);
  const sums = batch.cautions
    .filter((caution) => caution.kind !== "liquid-volume-unknown")
    .map(explainBatchCaution);
  return { cautions: [...sums, ...warned.cautions], cautioned: warned.cautioned };
}
