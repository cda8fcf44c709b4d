import { z } from "zod";
import { countryFor, volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { of, said, worked } from "../src/commands/figures.ts";
import {
  basisOf,
  formulaCautions,
  formulaLines,
  formulaWorking,
  hydrateNote,
  rowsJson,
  rowsOf,
} from "../src/commands/formula-answer.ts";
import { formulas, type PublishedFormula } from "../src/data/formulas.ts";
import { showAmount } from "../src/domain/mixing/amount.ts";
import { explainFormula, scaleFormula } from "../src/domain/mixing/scale-formula.ts";
import { basisVolume } from "../src/domain/mixing/us-formula.ts";
import { showVolume, showVolumeFor } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const styles = {
  grains: "ounces",
  grain: "ounces",
  ounces: "ounces",
  ounce: "ounces",
  oz: "ounces",
  us: "us",
  american: "us",
  imperial: "imperial",
  grams: "metric",
  metric: "metric",
} as const;

export const formulaCommand = defineCommand({
  name: "formula",
  summary: "A published formula scaled to any volume, in grams, and in ounces two ways.",
  topic: "arithmetic",
  sentences: [
    "(scale|mix|make|weigh|weigh out|prepare) [up] [a] {formula} <[to|for|up to] [a] {total} / in {style}>",
    "(scale|mix|make|prepare|weigh out) [up] [a] {total} [of] {formula} [in {style}]",
    "[show] [formula|recipe|what is] [for] {formula} [formula] <[to|for|makes|to make] [a] {total} / in {style}>",
    "[formula|recipe for|how much of each for] [a] {total} [of] {formula} [in {style}]",
    "(what goes (in|into)|what is in|how do i (make|mix)) [a] [{total}] [of] {formula} [in {style}]",
    "(scale|formula|formula for) {named} (to|for) [a] {total}",
    "(scale|formula|formula for) {named}",
    "[show] formula",
  ],
  slots: { total: "volume", named: "text", style: "word" },
  examples: ["scale D-76 to 600 ml", "d-76 for 32 us ounces in grains"],
  fields: z.object({
    formula: z.string().optional(),
    total: volumeField("How much in all, with its unit?").optional(),
    style: z
      .string()
      .toLowerCase()
      .pipe(
        z.enum(Object.keys(styles) as (keyof typeof styles)[], {
          error: (issue) =>
            `I read "${String(issue.input).slice(0, 20)}": say in grams, grains, US or Imperial.`,
        }),
      )
      .optional(),
    /** A formula I do not know, as it was said. */
    named: z.string().optional(),
  }),
  changes: false,
  values: {
    formula: "its trade name",
    bath: "the bath it makes",
    ingredients:
      "in order: name, g or ml; with ounces wanted also grains or fl_oz (literal) and equivalent_grains or equivalent_fl_oz (formula-equivalent)",
    water_ml: "start water, mL; missing when the source has none",
    total_ml: "volume made up to, mL",
    temp_c: "start water temperature, °C; missing when the source has none",
    scale: "volume over the formula's own volume",
    equivalent_total_ml: "volume of the formula-equivalent column, mL: 32 US or 80 Imperial fl oz",
    reason: "in a refusal: unknown-formula and others",
  },
  run({ bench, now }, wanted) {
    const names = formulas.map(({ name }) => name);
    const printed = formulas.find(({ id }) => id === wanted.formula);
    if (printed === undefined) {
      if (wanted.named !== undefined || wanted.formula !== undefined) {
        const read = (wanted.named ?? wanted.formula ?? "").slice(0, 40);
        return refuse(
          "unknown-formula",
          `I do not know the formula "${read}". I have ${names.join(", ")}.`,
          {
            say: "I do not have that formula. Say formulas for the list.",
          },
        );
      }
      const options = formulas.map(({ id, name }) => ({ word: name, value: id }));
      return askFor("formula", wanted, "formula", `Which formula: ${names.join(", ")}?`, options, {
        say: `Which one: ${names.slice(0, 6).join(", ")}?`,
      });
    }
    const total = wanted.total ?? printed.total;
    const made = scaleFormula(printed, total);
    if (!made.ok) return declined(made.error, explainFormula(made.error));
    const scaled: PublishedFormula = {
      ...printed,
      ...made.value,
      ingredients: made.value.ingredients,
    };
    const habit = countryFor(bench, wanted.total);
    const style = wanted.style === undefined ? undefined : styles[wanted.style];
    const country =
      style === undefined
        ? habit
        : style === "metric"
          ? undefined
          : style === "ounces"
            ? (habit ?? "us")
            : style;
    const rows = rowsOf(scaled, country);
    const scale = total / printed.total;
    const scaledOrigin = {
      ...printed.origin,
      source: `${printed.origin.source ?? printed.name}, scaled`,
    };
    return answer({
      title: `${printed.name}, ${printed.bath}, ${showVolumeFor(total, country)}${wanted.total === undefined ? " as written" : ""}`,
      lines: [
        ...formulaLines(scaled, rows, country),
        ...(style === "ounces" && habit === undefined
          ? ["No country said: US fluid ounces shown; grains are the same in both."]
          : []),
        ...hydrateNote(rows),
      ],
      say: sayFormula(scaled),
      figures: {
        ingredients: { value: rowsJson(rows), origin: scaledOrigin },
        ...(scaled.startWater === undefined || printed.startOrigin === undefined
          ? {}
          : { water_ml: of(scaled.startWater, printed.startOrigin) }),
        total_ml: wanted.total === undefined ? of(total, printed.origin) : said(total),
        ...(printed.startTemperature === undefined || printed.startOrigin === undefined
          ? {}
          : { temp_c: of(printed.startTemperature, printed.startOrigin) }),
        scale: worked(scale, "volume wanted over the formula's own"),
        ...(country === undefined
          ? {}
          : {
              equivalent_total_ml: worked(
                basisVolume(basisOf(country)),
                "the volume ounce formulas are written for",
              ),
            }),
      },
      facts: { formula: printed.name, bath: printed.bath },
      cautions: formulaCautions(scaled, bench, now),
      working: formulaWorking(printed, scaled, country),
    });
  },
});

/** Water and the first thing in it; the rest is read as it is weighed. */
function sayFormula({ startWater, ingredients }: PublishedFormula): string {
  const [first] = ingredients;
  const water = startWater === undefined ? "Most of the water" : `${showVolume(startWater)} water`;
  const next = first === undefined ? "" : `, then ${showAmount(first.amount)} ${first.name}`;
  const count = ingredients.length;
  const whole = `${water}${next}${count === 1 ? "" : `, first of ${count}`}.`;
  return whole.split(" ").length <= 12 ? whole : `${water}${next}.`;
}
