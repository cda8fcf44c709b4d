import { z } from "zod";
import { volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { type Heat, heatField, oneScale } from "../src/commands/heats.ts";
import { volume } from "../src/domain/mixing/amount.ts";
import { hotAndCold } from "../src/domain/mixing/hot-and-cold.ts";
import { checkWanted } from "../src/domain/mixing/wanted.ts";
import { explainWater } from "../src/domain/mixing/water-error.ts";
import type { Celsius, Millilitres } from "../src/domain/units/quantity.ts";
import {
  plain,
  showCelsius,
  showTemperature,
  showVolume,
  showVolumeFor,
} from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const details = [
  "(from|with|using|out of|and) [hot] [water] [of|at] {hot} [hot] [water] and [cold] [water] [of|at] {cold} [cold] [water]",
  "[and|with|from] hot [tap] [water] [is|at|of] {hot}",
  "[and|with|from] cold [tap] [water] [is|at|of] {cold}",
  "[with|in|and] [a] (vessel|jug) [of|takes|counts as] {vessel} [of water] [at {vesselAt}]",
  "[with|and|then|plus] [a] {parts} [of] parts [at {partsAt}]",
].join(" / ");

export const waterCommand = defineCommand({
  name: "water",
  summary: "Hot and cold water for a volume at a temperature.",
  topic: "arithmetic",
  sentences: [
    `[how much] ((hot and cold|cold and hot) [water]|hot water|cold water) [do i need|is needed] [for|to make|makes] [a] {total} [of] [water] <(at|to) {target} / ${details}>`,
    `[get|i need|i want|make|mix|blend] [a] {total} [of] [water] (at|to) {target} <${details}>`,
    `(warm|heat|bring|cool|temper|blend) [a] {total} [of] [water] [up|down] to {target} <${details}>`,
    `[how do i (get|make)] water (at|of) {target} <[for|to make] [a] {total} / ${details}>`,
    "(hot and cold|cold and hot) [water]",
    "blend water",
  ],
  slots: {
    total: "volume",
    target: "heat",
    hot: "heat",
    cold: "heat",
    vessel: "volume",
    vesselAt: "heat",
    parts: "volume",
    partsAt: "heat",
  },
  examples: [
    "1 litre at 49 from 60 and 15",
    "hot and cold water for 800 ml at 43, hot 60, cold 12",
  ],
  fields: z.object({
    total: volumeField("How much water, with its unit?"),
    target: heatField("What temperature should it have?"),
    hot: heatField("How hot is the hot water?"),
    cold: heatField("How cold is the cold water?"),
    /** The vessel, as the water that would take as much heat. */
    vessel: volumeField("The vessel counts as how many mL of water?").optional(),
    vesselAt: heatField("What temperature does the vessel have?").optional(),
    /** What goes in after the water. */
    parts: volumeField("How much of parts goes in, with its unit?").optional(),
    partsAt: heatField("What temperature do the parts have?").optional(),
  }),
  changes: false,
  values: {
    hot_ml: "hot water, mL measured hot",
    cold_ml: "cold water, mL measured cold",
    total_ml: "water in all, mL at its temperature; parts come on top",
    temp_c: "where everything should land, °C",
    hot_c: "the hot water, °C",
    cold_c: "the cold water, °C",
    aim_c: "what the water should read before the parts go in, °C; only with parts or vessel",
    vessel_ml: "the vessel counted as water, mL",
    vessel_c: "the vessel, °C",
    parts_ml: "parts that go in afterwards, mL",
    parts_c: "the parts, °C",
  },
  run({ bench }, wanted) {
    const { total, vessel, vesselAt, parts, partsAt } = wanted;
    if (vessel !== undefined && vesselAt === undefined) {
      return askFor("water", wanted, "vesselAt", "What temperature does the vessel have?");
    }
    if (parts !== undefined && partsAt === undefined) {
      return askFor("water", wanted, "partsAt", "What temperature do the parts have?");
    }
    const heats = [wanted.hot, wanted.cold, vesselAt, partsAt].filter(
      (heat): heat is Heat => heat !== undefined,
    );
    const scaled = oneScale(wanted.target, heats, bench.degrees);
    if ("reply" in scaled) return scaled.reply;
    for (const one of [vessel, parts]) {
      const wrong = one === undefined ? undefined : checkWanted(volume(one));
      if (wrong !== undefined) return declined(wrong, explainWater(wrong));
    }
    const target = scaled.of(wanted.target);
    const [hot, cold] = inOrder(scaled.of(wanted.hot), scaled.of(wanted.cold));
    const jug =
      vessel === undefined || vesselAt === undefined
        ? undefined
        : { ml: vessel, at: scaled.of(vesselAt) };
    const later =
      parts === undefined || partsAt === undefined
        ? undefined
        : { ml: parts, at: scaled.of(partsAt) };
    const made = hotAndCold({
      volume: total,
      target,
      hot,
      cold,
      vessel: jug && { temperature: jug.at, takes: { kind: "water", ml: jug.ml } },
      later: later && [{ volume: later.ml, temperature: later.at }],
    });
    if (!made.ok) return declined(made.error, explainWater(made.error));
    const { hot: ofHot, cold: ofCold, aim, poured } = made.value;
    const show = (ml: Millilitres): string => showVolumeFor(ml, bench.country);
    const aside = jug !== undefined || later !== undefined;
    const seen = scaled.assumed === undefined ? [] : [scaled.assumed];
    return answer({
      title: `${show(total)} of water for ${showTemperature(target)}`,
      lines: [
        `hot   ${show(ofHot)} at ${showTemperature(hot)}`,
        `cold  ${show(ofCold)} at ${showTemperature(cold)}`,
        ...(later === undefined
          ? []
          : [
              `Before the ${show(later.ml)} of parts at ${showCelsius(later.at)} go in it should read ${showTemperature(aim)}.`,
            ]),
        ...(jug === undefined
          ? []
          : [`The vessel counted as ${show(jug.ml)} of water at ${showCelsius(jug.at)}.`]),
        ...seen,
        "Measure and trim.",
      ],
      say: `${showVolume(ofHot)} hot, ${showVolume(ofCold)} cold. Measure and trim.`,
      figures: {
        hot_ml: worked(ofHot, "by mass with water's density: how far the blend lies from the cold"),
        cold_ml: worked(ofCold, "by mass with water's density: the rest"),
        total_ml: said(total),
        temp_c: said(target),
        hot_c: said(hot),
        cold_c: said(cold),
        ...(aside ? { aim_c: worked(aim, "target raised by what the parts take") } : {}),
        ...(jug === undefined ? {} : { vessel_ml: said(jug.ml), vessel_c: said(jug.at) }),
        ...(later === undefined ? {} : { parts_ml: said(later.ml), parts_c: said(later.at) }),
      },
      working: [
        `The two waters should come to ${plain(poured, 2)} °C: share of hot = (${plain(poured, 2)} - ${plain(cold, 2)}) / (${plain(hot, 2)} - ${plain(cold, 2)}), by mass.`,
        "Mass to mL with water's density at each temperature (equation of Kell, 1975, as quoted elsewhere).",
        ...(aside
          ? ["Vessel and parts counted as water; a concentrate takes a little more."]
          : ["The vessel's heat is not counted: the blend lands low in a cold one."]),
        "Heat lost to the air is not counted: hence measure and trim.",
        ...seen,
      ],
    });
  },
});

const inOrder = (a: Celsius, b: Celsius): readonly [Celsius, Celsius] => (a >= b ? [a, b] : [b, a]);
