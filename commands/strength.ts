import { z } from "zod";
import {
  amountField,
  countryOf,
  keyOf,
  rawAmount,
  showAmountFor,
} from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import {
  acidCautions,
  agree,
  showStrength,
  strengthField,
  substanceOf,
} from "../src/commands/strengths.ts";
import { showAmount, sizeOf } from "../src/domain/mixing/amount.ts";
import { explainBlend, weaken, weakenAll } from "../src/domain/mixing/blend.ts";
import { plain } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const make =
  "[(how do (i|you) (make|mix|get)|make|mix|get|i need|i want|how much (stock|acid|water) for)]";
const stock = "(from|out of|using|with) [a] {stock} [stock|solution] [{substance}]";

export const strengthCommand = defineCommand({
  name: "strength",
  summary: "Bring a stock of one percentage down to another with water.",
  topic: "arithmetic",
  sentences: [
    "[dilute|go|bring|weaken] from [a] {stock} [{substance}] [down] to {target} <[for|make|to make|in] [a] {total}>",
    `${make} [a] {total} [of] [a] {target} [solution|{substance}] ${stock}`,
    `${make} [a] {target} [solution|{substance}] ${stock} <[for|to make|makes|in] [a] {total}>`,
    "[a] {total} from [a] {stock} [{substance}] [down] to {target}",
    "(dilute|bring|weaken|thin) [a] {stock} [{substance}] [down] to {target} <[for|to make|make|in] [a] {total}>",
    "(dilute|bring|weaken|thin) [a] {have} [of] [a] {stock} [{substance}] [down] to {target}",
    "how much water (for|in|into|with|to) [a] {have} [of] [a] {stock} [{substance}] [to make|to get|for|down to|to] {target}",
  ],
  needs: ["%", "percent", "pct", "percentage", "cent", "w/v", "v/v", "w/w"],
  slots: {
    stock: "percent",
    target: "percent",
    total: "amount",
    have: "amount",
    substance: "task",
  },
  examples: ["500 ml of 5 % from 28 % acid", "from 28 percent to 2 percent, 1 litre"],
  fields: z.object({
    stock: strengthField("How strong is the stock, in percent?"),
    target: strengthField("What strength do you want, in percent?"),
    total: amountField("How much in all, with its unit?").optional(),
    /** All the stock there is. */
    have: amountField("How much stock is there, with its unit?").optional(),
    substance: z.string().max(60, "Name the stock in a few words.").optional(),
  }),
  changes: false,
  values: {
    stock_ml: "stock, mL; by volume, w/v and v/v",
    water_ml: "water to the mark, mL",
    total_ml: "volume made, mL",
    stock_g: "stock, g; w/w only",
    water_g: "water, g; w/w only",
    total_g: "mass made, g; w/w only",
    stock_percent: "strength of the stock, %",
    target_percent: "strength made, %",
    percent_kind: 'w/v, v/v or w/w; "by volume" when none was named',
    substance: "what the stock is, if it was named",
  },
  run({ bench }, wanted) {
    const given = wanted.have ?? wanted.total;
    const heavy = heavyAcid(wanted);
    if (heavy !== undefined) return heavy;
    const agreed = agree([wanted.stock, wanted.target], given?.kind);
    if ("reply" in agreed) return agreed.reply;
    if (given === undefined) {
      return askFor(
        "strength",
        { ...wanted, have: rawAmount(wanted.have) },
        "total",
        "How much in all, with its unit?",
      );
    }
    const [strong, target] = agreed.strengths;
    if (strong === undefined || target === undefined)
      throw new Error("two strengths were agreed on");
    const made =
      wanted.have === undefined ? weaken(strong, target, given) : weakenAll(strong, target, given);
    if (!made.ok) return declined(made.error, agreed.tell(explainBlend(made.error)));
    const { stock: take, water, total } = made.value;
    const country = countryOf(bench, given);
    const substance = substanceOf(wanted.substance);
    const kind = agreed.kind === "by volume" ? "" : ` ${agreed.kind}`;
    const from = `${showStrength(strong)}${kind}`;
    const to = `${showStrength(target)}${kind}`;
    const byStock = "total times wanted percent over stock percent";
    return answer({
      title: `${showAmountFor(total, country)} of ${to}${substance === undefined ? "" : ` ${substance}`} from ${from}`,
      lines: [
        `water  ${showAmountFor(water, country)}; keep the last of it back`,
        `stock  ${showAmountFor(take, country)} of ${from}, into the water`,
        total.kind === "volume"
          ? `the rest of the water TO the ${showAmountFor(total, country)} mark`
          : `the rest of the water to ${showAmountFor(total, country)} on the scale`,
        ...(agreed.assumed === undefined ? [] : [agreed.assumed]),
      ],
      say: `${showAmount(take)} of the ${showStrength(strong)} into ${showAmount(water)} of water.`,
      figures: {
        [keyOf("stock", take)]:
          wanted.have === undefined ? worked(sizeOf(take), byStock) : said(sizeOf(take)),
        [keyOf("water", water)]: worked(sizeOf(water), "total less stock"),
        [keyOf("total", total)]:
          wanted.have === undefined
            ? said(sizeOf(total))
            : worked(sizeOf(total), "stock times stock percent over wanted percent"),
        stock_percent: said(strong.value),
        target_percent: said(target.value),
      },
      facts: { percent_kind: agreed.kind, ...(substance === undefined ? {} : { substance }) },
      cautions: acidCautions(substance),
      working: [
        wanted.have === undefined
          ? `Stock: ${plain(sizeOf(total), 2)} × ${plain(target.value, 2)} / ${plain(strong.value, 2)} = ${plain(sizeOf(take), 2)} ${unitOf(take)} (Subcourse SS0513, Photographic Quality Control, p. 22, diluting a liquid).`
          : `In all: ${plain(sizeOf(take), 2)} × ${plain(strong.value, 2)} / ${plain(target.value, 2)} = ${plain(sizeOf(total), 2)} ${unitOf(total)}.`,
        `Water: the rest, ${plain(sizeOf(water), 2)} ${unitOf(water)}.`,
        ...(agreed.assumed === undefined ? [] : [agreed.assumed]),
        ...(total.kind === "volume"
          ? ["Volumes taken to add up, which strong acids do not quite do: hence the mark."]
          : []),
      ],
    });
  },
});

const unitOf = ({ kind }: { readonly kind: "volume" | "mass" }): string =>
  kind === "volume" ? "mL" : "g";

/** Acids much denser than water: their labels count by weight, so a volume needs the density. */
const dense = /\b(sul(ph|f)uric|nitric|phosphoric|hydrochloric|muriatic|perchloric)\b/i;

/** Taking a label's percent by weight for one by volume would make such a bath far too strong. */
function heavyAcid({
  substance,
  stock,
  target,
}: {
  readonly substance?: string | undefined;
  readonly stock: { readonly kind?: string | undefined };
  readonly target: { readonly kind?: string | undefined };
}): Reply | undefined {
  if (substance === undefined || !dense.test(substance)) return undefined;
  if (stock.kind !== undefined && stock.kind === target.kind) return undefined;
  return refuse(
    "kind-unknown",
    `A label of ${substance} counts by weight and it is much denser than water, so I do not turn it into millilitres. Weigh both and say w/w for both, or buy it diluted.`,
    {
      say: "That acid counts by weight. Say w/w for both.",
      cautions: [
        "Acid to water, never water to acid. Strong acid heats up: cold water, slowly, eyes covered.",
      ],
    },
  );
}
