import { z } from "zod";
import { countryFor, volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import {
  chainDilutions,
  dilute,
  diluteAll,
  explainDilute,
  type Mix,
} from "../src/domain/mixing/dilute.ts";
import { type Origin, showOrigin } from "../src/domain/origin.ts";
import type { Millilitres } from "../src/domain/units/quantity.ts";
import { plain, showVolume, showVolumeFor } from "../src/domain/units/show.ts";
import { answer, refuse, type Shown } from "../src/reply/reply.ts";

/** What a maker's film sheet means by a colon. */
const colonMeans: Origin = {
  kind: "from memory",
  source: "F-32, developer rows: 1:4 is 1 part concentrate to 4 parts water",
};

const WHICH = "Which dilution? Say it like one plus nine.";
const dilutionField = (question: string) =>
  z.object({ waterParts: z.number(), notation: z.enum(["plus", "ratio"]) }, question);

export const diluteCommand = defineCommand({
  name: "dilute",
  summary: "Split a volume into concentrate and water, 1+9 or 1:9.",
  topic: "arithmetic",
  sentences: [
    "dilute [a] [{total}] [of] [{solution}] [at|to|by|as] [{dilution}]",
    "dilute [a] {solution} [at|to|by] {dilution} [to make|to|for|in|make] [a] [{total}]",
    "dilute [at|by] {dilution} [to|for|in|make|to make] [a] {total}",
    "[(make|mix|prepare) [up] [me]|i need|i want|give me] [a] {total} [of] [working] [solution|{solution}] [at|of|as|with] [a] {dilution} [dilution|solution]",
    "{solution} [at] {dilution} [for|to make|makes|in] [a] {total}",
    "[(make|mix) [up]] {dilution} [for|to make|to|makes|in] [a] {total}",
    "(how much|how many [parts]) (concentrate|stock|water|{solution}) [and [how much] (water|concentrate|stock)] [do i need|goes|go] (for|in|into|to make) [a] {total} [of] [{solution}] [at|of] [a] {dilution}",
    "dilute [a] {concentrate} [of] (concentrate|stock) [at|to|by] {dilution}",
    "[a] {concentrate} [of] (concentrate|concentrate is) [at|to|by] {dilution}",
    "how (much|far) (does|do|will|can) [a] {concentrate} [of] (concentrate|stock) (make|go|give) [at] {dilution}",
    "how much [solution|working solution] (can i make|do i get|will i get) (from|out of|with) [a] {concentrate} [of] [concentrate|stock] [at] {dilution}",
    "[dilute|make|mix] [a] {total} [of|at] {dilution} (then|and then|again|and again) [diluted] [at|by] {again}",
  ],
  slots: { total: "volume", concentrate: "volume", again: "dilution" },
  examples: ["dilute 500 ml 1+9", "how much concentrate for 600 ml one to nine"],
  fields: z.object({
    total: volumeField("How much in all, with its unit?").optional(),
    concentrate: volumeField("How much concentrate, with its unit?").optional(),
    dilution: dilutionField(WHICH).optional(),
    /** The same solution diluted once more. */
    again: dilutionField("Diluted again how? Say it like one plus seven.").optional(),
    solution: z.string().optional(),
  }),
  changes: false,
  values: {
    total_ml: "working solution, mL",
    concentrate_ml: "concentrate, mL; for 1:N read as 1+N",
    water_ml: "water, mL",
    water_parts: "parts of water to one part of concentrate",
    in_n: "only for 1:N, the other reading, one part in N in all: concentrate_ml, water_ml, total_ml",
    bath: "the bath, if it was named",
  },
  run({ bench }, wanted) {
    const { total, concentrate, dilution, again, solution } = wanted;
    const given = concentrate ?? total;
    if (given === undefined) {
      return askFor("dilute", wanted, "total", "How much in all, with its unit?");
    }
    if (dilution === undefined) return askFor("dilute", wanted, "dilution", WHICH);
    const chained = chainDilutions([dilution.waterParts, again?.waterParts ?? 0]);
    if (!chained.ok) return declined(chained.error, explainDilute(chained.error));
    const parts = chained.value;
    const split = (water: number) =>
      concentrate === undefined ? dilute(given, water) : diluteAll(concentrate, water);
    const mix = split(parts);
    if (!mix.ok) return declined(mix.error, explainDilute(mix.error));
    const ratio = dilution.notation === "ratio" || again?.notation === "ratio";
    const inAll = ratio && again === undefined ? split(parts - 1) : undefined;
    const other = inAll?.ok === true ? inAll.value : undefined;

    const country = countryFor(bench, given);
    const show = (ml: Millilitres): string => showVolumeFor(ml, country);
    const n = plain(dilution.waterParts, 3);
    const plus = `1+${plain(parts, 3)}`;
    const lines = (one: Mix, as: string): string =>
      `${as}: concentrate ${show(one.concentrate)}, water ${show(one.water)}${concentrate === undefined ? "" : `, in all ${show(one.total)}`}`;
    if (parts === 0 && other !== undefined)
      return refuse("bad-parts", "I read 1:0: say it like one plus nine.");
    return answer({
      title: `${show(mix.value.total)}${solution === undefined ? "" : ` of ${solution}`} at ${plus}`,
      lines: [
        lines(mix.value, plus),
        ...(other === undefined
          ? []
          : [
              `${lines(other, `1 part in ${n} in all (1+${plain(parts - 1, 3)})`)}`,
              `1:${n} is read both ways; one maker means 1+${n} by it (from memory). Your sheet decides.`,
            ]),
      ],
      say: `${ratio ? `As ${plus}: ` : ""}${showVolume(mix.value.concentrate)} concentrate, ${showVolume(mix.value.water)} water.`,
      figures: figuresOf(
        mix.value,
        parts,
        { fromConcentrate: concentrate !== undefined, ratio },
        other,
      ),
      facts: solution === undefined ? {} : { bath: solution },
      working: [
        concentrate === undefined
          ? `Concentrate: ${plain(given, 2)} mL / (1 + ${plain(parts, 3)} parts) = ${plain(mix.value.concentrate, 2)} mL; water is the rest, ${plain(mix.value.water, 2)} mL.`
          : `Water: ${plain(concentrate, 2)} mL × ${plain(parts, 3)} parts = ${plain(mix.value.water, 2)} mL; in all ${plain(mix.value.total, 2)} mL.`,
        ...(again === undefined
          ? []
          : [
              `Diluted twice: (1 + ${n}) × (1 + ${plain(again.waterParts, 3)}) = ${plain(parts + 1, 3)} parts in all.`,
            ]),
        ...(ratio ? [`The colon read as 1+N: ${showOrigin(colonMeans)}.`] : []),
      ],
    });
  },
});

function figuresOf(
  mix: Mix,
  parts: number,
  { fromConcentrate, ratio }: { readonly fromConcentrate: boolean; readonly ratio: boolean },
  other: Mix | undefined,
): Record<string, Shown> {
  return {
    total_ml: fromConcentrate ? worked(mix.total, "concentrate and its water") : said(mix.total),
    concentrate_ml: fromConcentrate
      ? said(mix.concentrate)
      : worked(mix.concentrate, "total over one more than the parts of water"),
    water_ml: worked(
      mix.water,
      fromConcentrate ? "concentrate times the parts of water" : "total less concentrate",
    ),
    water_parts: ratio ? { value: parts, origin: colonMeans } : said(parts),
    ...(other === undefined
      ? {}
      : {
          in_n: worked(
            { concentrate_ml: other.concentrate, water_ml: other.water, total_ml: other.total },
            "one part in N parts in all",
          ),
        }),
  };
}
