import { z } from "zod";
import { lookOn } from "../src/commands/bottle-looks.ts";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { costLine } from "../src/commands/cost-lines.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { showMoney } from "../src/domain/units/show.ts";
import { answer, type Json, type Reply, refuse } from "../src/reply/reply.ts";

export const costCommand = defineCommand({
  name: "cost",
  summary: "Tell me what a bottle cost; ask what a roll costs.",
  topic: "bottle",
  sentences: [
    "{bottle} (cost|costs|was) [me|us] {amount} {currency}",
    "{bottle} (cost|costs) [me|us] {amount}",
    "[i] paid {amount} [{currency}] for {bottle}",
    "[what is] [the] (cost|price) (per|of a|for a|for each) (roll|unit|film) [(in|from|with|of) {bottle}]",
    "(what|how much) does (a roll|each roll|a film|a unit) cost [me|us] [(in|from|with) {bottle}]",
    "how much is (a roll|each roll|a film) [(in|from|with) {bottle}]",
    "(what|how much) (does|did) {bottle} cost [me|us] [(per|a|for a) (roll|film|unit)]",
  ],
  slots: { amount: "number", currency: "word" },
  examples: ["Acorn cost 14 euros", "what does a roll cost"],
  fields: z.object({
    bottle: z.string().optional(),
    amount: z
      .number()
      .min(0, "A price cannot be below zero. Say what it cost, like 14 euros.")
      .max(100_000, "That is no price for a bottle. Say what it cost, like 14 euros.")
      .optional(),
    currency: z.string().max(20, "Say the money in a word, like euros.").optional(),
  }),
  changes: true,
  values: {
    bottle: "the bottle asked about or priced",
    price: "what it cost",
    currency: "the word the price was given in",
    cost: "for each unit of film done; missing while none was",
    cost_at_capacity: "for each unit when all its capacity is used; missing when none is known",
    bottles: "one entry a priced bottle: bottle, price, currency, cost, cost_at_capacity",
  },
  run({ bench, now }, { bottle: id, amount, currency }) {
    const today = dateOf(now, bench.zone);
    if (amount === undefined) return report(bench, id, today);
    if (id === undefined) return askFor("cost", { amount, currency }, "bottle", "Which bottle?");
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    if (currency === undefined) {
      return askFor(
        "cost",
        { bottle: id, amount },
        "currency",
        `${amount} of what: euros, dollars, pounds?`,
      );
    }
    const priced = { ...meant.bottle, price: { amount, currency: currency.toLowerCase() } };
    const cost = costLine(priced, lookOn(bench, priced, today).capacity?.value);
    return withBottle(
      bench,
      priced,
      answer({
        title: `${priced.name} cost ${showMoney(amount, priced.price.currency)}.`,
        lines: cost === undefined ? [] : [cost.line],
        say: `${priced.name}: ${showMoney(amount, priced.price.currency)}. Noted.`,
        figures: {
          price: { value: amount, origin: { kind: "told" } },
          ...costFigures(cost),
        },
        facts: { bottle: priced.name, currency: priced.price.currency },
      }),
    );
  },
});

const costFigures = (cost: ReturnType<typeof costLine>) => ({
  ...(cost?.soFar === undefined
    ? {}
    : {
        cost: {
          value: cost.soFar,
          origin: { kind: "computed" as const, source: "price by film done" },
        },
      }),
  ...(cost?.atCapacity === undefined
    ? {}
    : {
        cost_at_capacity: {
          value: cost.atCapacity,
          origin: { kind: "computed" as const, source: "price by capacity" },
        },
      }),
});

function report(bench: Bench, id: string | undefined, today: string): Reply {
  const priced = Object.values(bench.bottles).filter(
    (bottle) =>
      bottle.price !== undefined &&
      (id === undefined ? bottle.retiredOn === undefined : bottle.id === id),
  );
  const costs = priced.flatMap((bottle) => {
    const cost = costLine(bottle, lookOn(bench, bottle, today).capacity?.value);
    return cost === undefined ? [] : [{ bottle, cost }];
  });
  const [first] = costs;
  if (first === undefined) {
    const name = id === undefined ? "Acorn" : (ownValue(bench.bottles, id)?.name ?? "Acorn");
    return refuse("no-price", `No price was told. Say ${name} cost 14 euros.`, {
      say: "No price was told.",
    });
  }
  const rows: Json[] = costs.map(({ bottle, cost }) => ({
    bottle: bottle.name,
    price: bottle.price?.amount ?? 0,
    currency: cost.currency,
    cost: cost.soFar ?? null,
    cost_at_capacity: cost.atCapacity ?? null,
  }));
  const one = new Set(costs.map(({ cost }) => cost.currency)).size === 1;
  const sum = costs.reduce((total, { cost }) => total + (cost.soFar ?? 0), 0);
  const all = costs.every(({ cost }) => cost.soFar !== undefined);
  const title =
    one && all && costs.length > 1
      ? `A roll costs ${showMoney(sum, first.cost.currency)} so far, all priced baths together.`
      : costs.length === 1
        ? first.cost.line
        : `${costs.length} priced bottles`;
  return answer({
    title,
    lines: costs.length === 1 ? [] : costs.map(({ cost }) => cost.line),
    say:
      one && all
        ? `A roll costs ${showMoney(sum, first.cost.currency)} so far.`
        : "The prices are on the screen.",
    figures: {
      bottles: { value: rows, origin: { kind: "computed", source: "price by film" } },
      ...(costs.length === 1 ? costFigures(first.cost) : {}),
    },
    facts: {
      currency: first.cost.currency,
      ...(id === undefined ? {} : { bottle: first.bottle.name }),
    },
  });
}
