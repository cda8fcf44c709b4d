import { z } from "zod";
import { showMassFor } from "../src/commands/amounts.ts";
import { compoundSaid, nearestCompounds } from "../src/commands/compound-names.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { explainFindCompound } from "../src/domain/mixing/find-compound.ts";
import { type Compound, explainSwap, swap } from "../src/domain/mixing/swap.ts";
import { grams } from "../src/domain/units/quantity.ts";
import { plain, showMass } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const name = (message: string) =>
  z.string(message).max(80, "Give the chemical's name in a few words.");
const says = "(says|wants|calls for|asks for|prints|needs|has)";
const have = "(i [only] have [only] [got]|i [only] got|in the jar is|there is|my jar (is|has))";

export const swapCommand = defineCommand({
  name: "swap",
  summary: "Another hydrate or salt in the jar than the formula names: how much to weigh.",
  topic: "arithmetic",
  sentences: [
    "[i [only] have|i have got|i have only|use|using|weigh] {inJar} (instead|in place) [of] {mass} [of] {printed}",
    "[i [only] have|i have got|i have only|use|using|weigh] {inJar} (instead|in place) [of] {printed} {mass}",
    "[i [only] have|i have got|i have only|use|using|weigh] {inJar} (instead|in place) [of] {printed}",
    `[the] (formula|recipe|it) ${says} {mass} [of] {printed} [and|but] ${have} {inJar}`,
    `[the] (formula|recipe|it) ${says} {printed} [and|but] ${have} {inJar} {mass}`,
    `[the] (formula|recipe|it) ${says} {printed} {mass} [and|but] ${have} {inJar}`,
    `[the] (formula|recipe|it) ${says} {printed} [and|but] ${have} {inJar}`,
    `i [only] have {inJar} [and|but] [the] (formula|recipe|it) ${says} {mass} [of] {printed}`,
    `i [only] have {inJar} [and|but] [the] (formula|recipe|it) ${says} {printed}`,
    "(swap|replace|exchange) {mass} [of] {printed} (for|by|with|to) {inJar}",
    "(swap|replace|exchange) {printed} (for|by|with) {inJar} {mass}",
    "(swap|replace|exchange) {printed} {mass} (for|by|with|to) {inJar}",
    "(swap|replace|exchange) {printed} (for|by|with) {inJar}",
    "substitute {inJar} for {mass} [of] {printed}",
    "substitute {inJar} for {printed}",
    "how much [of] {inJar} (instead|in place|replaces|to replace) [of] {mass} [of] {printed}",
    "how much [of] {inJar} (instead|in place|replaces|to replace) [of] {printed}",
    "(swap|swap salts|swap a salt|hydrate)",
  ],
  slots: { printed: "text", inJar: "text" },
  examples: [
    "I have sodium carbonate monohydrate instead of anhydrous",
    "swap 50 g anhydrous sodium carbonate for the monohydrate",
  ],
  fields: z.object({
    printed: name("What does the formula say, with its water?"),
    inJar: name("What do you have in the jar, with its water?"),
    mass: z.number("How many grams does the formula say?").transform(grams).optional(),
  }),
  changes: false,
  values: {
    factor: "weight of what is in the jar to one of what the formula names",
    mass_g: "what the formula says, g; missing when no weight was given",
    instead_g: "to weigh instead, g; missing when no weight was given",
    printed: "the compound the formula names",
    in_jar: "the compound that is there",
    nearest: "in a refusal: names near what was said",
  },
  run({ bench }, wanted) {
    const printed = compoundFor("printed", wanted);
    const inJar = compoundFor("inJar", wanted);
    // A name nobody knows comes before a question about the other one.
    if ("reply" in inJar && inJar.reply.kind === "refusal") return inJar.reply;
    if ("reply" in printed) return printed.reply;
    if ("reply" in inJar) return inJar.reply;
    const { mass } = wanted;
    // The factor needs no weight; any gives it.
    const done = swap(printed.compound, inJar.compound, mass ?? grams(1));
    if (!done.ok) {
      return declined(done.error, explainSwap(done.error), {
        ...(done.error.kind === "different-family"
          ? { say: "Different kinds of salt: no arithmetic for that." }
          : {}),
        facts: { printed: printed.compound.name, in_jar: inJar.compound.name },
      });
    }
    const { factor, mass: instead } = done.value;
    const [from, to] = [printed.compound, inJar.compound];
    const show = (g: typeof instead): string => showMassFor(g, bench.country);
    return answer({
      title: `The formula says ${from.name}, you have ${to.name}: take ${plain(factor, 3)} times the weight`,
      lines: [
        ...(mass === undefined
          ? [`for every 10 g of ${from.name} weigh ${showMass(grams(10 * factor))} of ${to.name}`]
          : [`weigh ${show(instead)} of ${to.name}`, `instead of ${show(mass)} of ${from.name}`]),
      ],
      say:
        mass === undefined
          ? `Weigh ${plain(factor, 2)} times as much, of ${to.name}.`
          : `${showMass(instead)} of ${to.name} instead of ${showMass(mass)}.`,
      figures: {
        factor: worked(
          factor,
          "molar mass in the jar over molar mass in the formula, each per active ion",
        ),
        ...(mass === undefined
          ? {}
          : {
              mass_g: said(mass),
              instead_g: worked(instead, "formula's weight times the factor"),
            }),
      },
      facts: { printed: from.name, in_jar: to.name },
      working: [
        ...[from, to].map(
          (one) =>
            `${one.name}, ${one.formula}: ${plain(one.molarMass, 3)} g/mol for ${one.activePerFormulaUnit} of ${one.family} (from standard atomic weights).`,
        ),
        `Factor: jar over formula = ${plain(factor, 4)}.`,
        ...(mass === undefined
          ? []
          : [`${plain(mass, 3)} g × ${plain(factor, 4)} = ${plain(instead, 3)} g.`]),
      ],
    });
  },
});

type Wanted = {
  readonly printed: string;
  readonly inJar: string;
  readonly mass?: number | undefined;
};

function compoundFor(
  slot: "printed" | "inJar",
  wanted: Wanted,
): { readonly compound: Compound } | { readonly reply: Reply } {
  const text = wanted[slot];
  const found = compoundSaid(text, wanted[slot === "printed" ? "inJar" : "printed"]);
  if (found.ok) return { compound: found.value };
  const { error } = found;
  if (error.kind === "which-compound") {
    const where = slot === "printed" ? "in the formula" : "in the jar";
    return {
      reply: askFor(
        "swap",
        wanted,
        slot,
        `Which ${text.slice(0, 40)} ${where}: ${error.choices.join("; ")}?`,
        error.choices,
        {
          say: `Which ${text.slice(0, 30)} ${where}?`,
        },
      ),
    };
  }
  const nearest = nearestCompounds(text);
  return {
    reply: refuse(
      "unknown-compound",
      `${explainFindCompound(error)} Nearest I know: ${nearest.join("; ")}.`,
      {
        say: "I do not know that chemical. Say its full name.",
        facts: { nearest },
      },
    ),
  };
}
