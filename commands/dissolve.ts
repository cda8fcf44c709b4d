import { z } from "zod";
import { countryFor, showMassFor, volumeField } from "../src/commands/amounts.ts";
import { cautionsFor } from "../src/commands/cautions.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { of, said, worked } from "../src/commands/figures.ts";
import { strengthField, substanceOf } from "../src/commands/strengths.ts";
import {
  explainPercent,
  type Percent,
  percent,
  soluteFor,
  stockHolding,
} from "../src/domain/mixing/percent.ts";
import type { Origin } from "../src/domain/origin.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { type Grams, grams, type Instant, type Millilitres } from "../src/domain/units/quantity.ts";
import { plain, showMass, showVolume, showVolumeFor } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const upToTheMark: Origin = {
  kind: "published",
  source: "Subcourse SS0513, Photographic Quality Control, p. 22",
};
/** Water to begin with, as a share of the mark: the same page starts ten ounces in about eight. */
const START = 0.8;
/** Above this, w/v, the solid takes too much room for that share (our own bound, no source). */
const ROOM = 20;

const liquids = /acetic|glacial|sul(f|ph)uric|hydrochloric|nitric|ammonia|formal|vinegar/i;

export const dissolveCommand = defineCommand({
  name: "dissolve",
  summary: "A percentage solution of a dry chemical, made up to the mark.",
  topic: "arithmetic",
  sentences: [
    "[make|mix|i need|i want] [a] {target} solution [of {substance}] <[for|to make|in|of] [a] {total}>",
    "[make|mix|i need|i want] [a] {target} {substance} solution <[for|to make|in] [a] {total}>",
    "[make|mix|prepare|i need|i want] [a] {total} [of] [a] {target} [{substance}] solution [of {substance}]",
    "[make|mix|prepare|dissolve] [a] {total} [of] [a] {target} (%|percent) {substance}",
    "[how do i] dissolve [a] {target} [{substance}] [in|for|to] [a] {total}",
    "how (many grams|much|much powder|much solid) [of] [{substance}] [do i need|goes|do i weigh] (for|in|into|to make) [a] {total} [of] [a] {target} [solution]",
    "(how many grams|how much) [of] [{substance}] [do i need|do i weigh] (for|in|to make) [a] {target} [solution] <[in|for|of] [a] {total}>",
    "how (much|many (ml|millilitres|milliliters)) [of] [a] {target} [{substance}] [stock|solution] [stock] (gives|for|holds|has|contains|gives me|do i need for|to get|makes) {mass} [of {substance}]",
    "(how much|how many ml) [of] [a] {target} [{substance}] [stock|solution] [stock] (is|are) {mass} [of {substance}] [in]",
    "{mass} [of {substance}] (from|out of|as) [a] {target} [{substance}] (stock|solution) [solution]",
  ],
  slots: { target: "percent", total: "volume", substance: "text" },
  examples: ["10 percent solution, 250 ml", "how much of a 20 percent stock gives 3.2 grams"],
  fields: z.object({
    target: strengthField("What strength, in percent?"),
    total: volumeField("How much in all, with its unit?").optional(),
    mass: z.number("How many grams of it?").transform(grams).optional(),
    substance: z.string().max(60, "Name the chemical in a few words.").optional(),
  }),
  changes: false,
  values: {
    mass_g: "dry chemical, g",
    total_ml: "volume made up to, mL",
    water_ml: "water to begin with, mL, about; missing above 20 %",
    stock_ml: "stock that holds the mass, mL",
    stock_percent: "strength of that stock, % w/v",
    target_percent: "strength made, % w/v",
    percent_kind: "always w/v: grams in 100 mL of solution",
    substance: "the chemical, if it was named",
  },
  run({ bench, now }, wanted) {
    const substance = substanceOf(wanted.substance);
    const kind = wanted.target.kind ?? kindWithin(wanted.substance);
    if (kind !== undefined && kind !== "w/v") {
      return refuse(
        "percent-kind",
        `I read ${kind}, and a dry chemical in a volume is w/v, grams in 100 mL: say it so.`,
        {
          say: "A dry chemical in a volume is w/v. Say it so.",
        },
      );
    }
    if (substance !== undefined && liquids.test(substance)) {
      return refuse(
        "needs-stock",
        `${substance} is no powder: say from which strength, like 500 ml of 5 percent from 28 percent.`,
        {
          say: "That is no powder. Say from which strength in percent.",
        },
      );
    }
    const strength = percent(wanted.target.percent, "w/v");
    if (!strength.ok) return declined(strength.error, explainPercent(strength.error));
    const assumed =
      kind === undefined ? ["Percent taken as w/v: grams in 100 mL of solution."] : [];
    if (wanted.mass !== undefined) {
      return fromStock(bench, strength.value, wanted.mass, substance, assumed);
    }
    if (wanted.total === undefined) {
      return askFor("dissolve", wanted, "total", "How much in all, with its unit?");
    }
    return dry(bench, now, strength.value, wanted.total, substance, assumed);
  },
});

function dry(
  bench: Bench,
  now: Instant,
  target: Percent<"w/v">,
  total: Millilitres,
  substance: string | undefined,
  assumed: readonly string[],
): Reply {
  const weigh = soluteFor(target, total);
  if (!weigh.ok) return declined(weigh.error, explainPercent(weigh.error));
  const country = countryFor(bench, total);
  const mark = showVolumeFor(total, country);
  const shown = plain(target.value, 2);
  const start = target.value > ROOM ? undefined : total * START;
  const starting =
    start === undefined
      ? "start with less water than the mark and leave room for the solid"
      : `start water  about ${plain(start, start < 10 ? 1 : 0)} mL`;
  return answer({
    title: `${mark} of ${shown} % w/v${substance === undefined ? "" : ` ${substance}`}`,
    lines: [
      starting,
      `weigh  ${showMassFor(weigh.value, country)}; stir until clear`,
      `water TO the ${mark} mark, not ${showVolume(total)} added`,
      ...(start === undefined
        ? ["Whether that much dissolves I cannot tell; warm water may help."]
        : []),
      ...assumed,
    ],
    say: `${showMass(weigh.value)}, then water up to the ${showVolume(total)} mark.`,
    figures: {
      mass_g: worked(weigh.value, "total times percent over 100"),
      total_ml: said(total),
      ...(start === undefined ? {} : { water_ml: of(start, upToTheMark) }),
      target_percent: said(target.value),
    },
    facts: { percent_kind: "w/v", ...(substance === undefined ? {} : { substance }) },
    cautions: cautionsFor(bench, ["powder"], "mix", now).cautions,
    working: [
      `Weigh: ${plain(total, 2)} mL × ${shown} / 100 = ${plain(weigh.value, 3)} g.`,
      `Made up to the mark, not added to it (published: ${upToTheMark.source}); it starts with 8 parts of 10.`,
      ...assumed,
    ],
  });
}

function fromStock(
  bench: Bench,
  stock: Percent<"w/v">,
  mass: Grams,
  substance: string | undefined,
  assumed: readonly string[],
): Reply {
  const measure = stockHolding(mass, stock);
  if (!measure.ok) return declined(measure.error, explainPercent(measure.error));
  const shown = plain(stock.value, 2);
  const ml = showVolumeFor(measure.value, bench.country);
  return answer({
    title: `${showMassFor(mass, bench.country)}${substance === undefined ? "" : ` of ${substance}`} from a ${shown} % w/v stock`,
    lines: [`stock  ${ml} of the ${shown} %`, ...assumed],
    say: `${showVolume(measure.value)} of the ${shown} % holds ${showMass(mass)}.`,
    figures: {
      stock_ml: worked(measure.value, "grams times 100 over percent"),
      mass_g: said(mass),
      stock_percent: said(stock.value),
    },
    facts: { percent_kind: "w/v", ...(substance === undefined ? {} : { substance }) },
    working: [
      `Stock: ${plain(mass, 3)} g × 100 / ${shown} = ${plain(measure.value, 3)} mL.`,
      ...assumed,
    ],
  });
}

/** "V/v alcohol": a kind that was read as part of the name. */
function kindWithin(substance: string | undefined): "w/v" | "v/v" | "w/w" | undefined {
  if (substance === undefined) return undefined;
  if (/^(v\/v|by volume)\b/i.test(substance)) return "v/v";
  if (/^(w\/w|by (weight|mass))\b/i.test(substance)) return "w/w";
  return /^w\/v\b/i.test(substance) ? "w/v" : undefined;
}
