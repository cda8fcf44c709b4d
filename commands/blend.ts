import { z } from "zod";
import { amountField, countryOf, keyOf, showAmountFor } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { agree, showStrength, strengthField } from "../src/commands/strengths.ts";
import { mass, showAmount, sizeOf, volume } from "../src/domain/mixing/amount.ts";
import { blend, explainBlend } from "../src/domain/mixing/blend.ts";
import { plain } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

export const blendCommand = defineCommand({
  name: "blend",
  summary: "Two strengths of one solution together to a third.",
  topic: "arithmetic",
  sentences: [
    "(blend|mix|combine) [a] {first} [solution] (and|with|into|plus) [a] {second} [solution] [to|for|into] [(get|make|give|reach)] [a] {target} [solution] <[in all|for|make|to make|total|in] [a] {total}>",
    "(blend|mix|make|get) [a] {total} [of] [a] {target} [solution] from [a] {first} [solution] and [a] {second} [solution]",
    "(blend|mix|make|get) [a] {target} [solution] from [a] {first} [solution] and [a] {second} [solution] <[for|to make|total|in all|make] [a] {total}>",
    "(how do i (make|mix|get)) [a] [{total}] [of] [a] {target} [solution] from [a] {first} [solution] and [a] {second} [solution]",
    "[a] {total} [of] [a] {target} [solution] from [a] {first} [solution] and [a] {second} [solution]",
  ],
  slots: { first: "percent", second: "percent", target: "percent", total: "amount" },
  examples: ["mix 20 % with 5 % to get 8 %", "blend 10 percent and 2 percent to 5 percent, 600 ml"],
  fields: z.object({
    first: strengthField("How strong is the first, in percent?"),
    second: strengthField("How strong is the second, in percent?"),
    target: strengthField("What strength do you want, in percent?"),
    total: amountField("How much in all, with its unit?").optional(),
  }),
  changes: false,
  values: {
    strong_ml: "of the stronger, mL; missing without a total",
    weak_ml: "of the weaker, mL; missing without a total",
    total_ml: "volume made, mL; missing without a total",
    strong_g: "of the stronger, g; w/w only",
    weak_g: "of the weaker, g; w/w only",
    total_g: "mass made, g; w/w only",
    strong_parts: "parts of the stronger: target less weak",
    weak_parts: "parts of the weaker: strong less target",
    strong_percent: "the stronger, %",
    weak_percent: "the weaker, %",
    target_percent: "strength made, %",
    percent_kind: 'w/v, v/v or w/w; "by volume" when none was named',
  },
  run({ bench }, { first, second, target: wished, total }) {
    const [a, b] = first.percent >= second.percent ? [first, second] : [second, first];
    const agreed = agree([a, b, wished], total?.kind);
    if ("reply" in agreed) return agreed.reply;
    const [strong, weak, target] = agreed.strengths;
    if (strong === undefined || weak === undefined || target === undefined) {
      throw new Error("three strengths were agreed on");
    }
    // Parts need no total; any amount in the right measure gives them.
    const made = blend(
      strong,
      weak,
      target,
      total ?? (strong.kind === "w/w" ? mass(100) : volume(100)),
    );
    if (!made.ok) return declined(made.error, agreed.tell(explainBlend(made.error)));
    const { parts, a: ofStrong, b: ofWeak } = made.value;
    const country = countryOf(bench, total);
    const [high, low, to] = [showStrength(strong), showStrength(weak), showStrength(target)];
    const partsWord = strong.kind === "w/w" ? "parts by weight" : "parts by volume";
    const strongParts = plain(parts.a, 2);
    const weakParts = plain(parts.b, 2);
    const kind = agreed.kind === "by volume" ? "" : ` ${agreed.kind}`;
    return answer({
      title: `${total === undefined ? "" : `${showAmountFor(total, country)} of `}${to}${kind} from ${high} and ${low}`,
      lines: [
        ...(total === undefined
          ? []
          : [
              `${high}  ${showAmountFor(ofStrong, country)}`,
              `${low}  ${showAmountFor(ofWeak, country)}`,
            ]),
        `${strongParts} ${partsWord} of ${high} to ${weakParts} of ${low}`,
        ...(agreed.assumed === undefined ? [] : [agreed.assumed]),
      ],
      say:
        total === undefined
          ? `${strongParts} parts of ${high} to ${weakParts} of ${low}.`
          : `${showAmount(ofStrong)} of ${high}, ${showAmount(ofWeak)} of ${low}.`,
      figures: {
        ...(total === undefined
          ? {}
          : {
              [keyOf("strong", ofStrong)]: worked(
                sizeOf(ofStrong),
                "total times its share of the parts",
              ),
              [keyOf("weak", ofWeak)]: worked(sizeOf(ofWeak), "total less the stronger"),
              [keyOf("total", total)]: said(sizeOf(total)),
            }),
        strong_parts: worked(parts.a, "target less weak"),
        weak_parts: worked(parts.b, "strong less target"),
        strong_percent: said(strong.value),
        weak_percent: said(weak.value),
        target_percent: said(target.value),
      },
      facts: { percent_kind: agreed.kind },
      working: [
        `Parts of ${high}: target less weak, ${plain(target.value, 2)} - ${plain(weak.value, 2)} = ${strongParts}.`,
        `Parts of ${low}: strong less target, ${plain(strong.value, 2)} - ${plain(target.value, 2)} = ${weakParts}.`,
        ...(agreed.assumed === undefined ? [] : [agreed.assumed]),
        ...(strong.kind === "w/w" ? [] : ["Volumes taken to add up."]),
      ],
    });
  },
});
