import { z } from "zod";
import { dueLine, fillWords, lookValues, stateFigures } from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { askFor, defineCommand, toJson } from "../src/commands/define-command.ts";
import { blockedWay } from "../src/commands/one-way.ts";
import {
  type Bottle,
  contentsOf,
  fillNow,
  roleOf,
  sizeOf,
} from "../src/domain/chemistry/bottle.ts";
import { pourBack } from "../src/domain/chemistry/fill.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { isDeveloper, spoilsDeveloper } from "../src/domain/process/sheet.ts";
import { type Bench, liveBottles } from "../src/domain/session/bench.ts";
import { inHand } from "../src/domain/session/in-hand.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { type Instant, type Millilitres, millilitres } from "../src/domain/units/quantity.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

export const returnedCommand = defineCommand({
  name: "returned",
  summary: "Pour a bath back: I ask for the name on the bottle in your hand first.",
  topic: "bottle",
  sentences: [
    "[i|we] [have] [pour|poured|put|goes|going|return|returned] [it|the|{volume}|{solution}] [is|went|goes] back (in|into|to) {bottle}",
    "[i|we] [have] (return|returned) [it|{volume}] [of] [{solution}] (to|into|in) {bottle}",
    "[i|we] [have] [pour|poured|put] [the] {solution} [is] back [in|into] [[the|its] bottle]",
    "[it is] back (in|into) [the|its] bottle",
    "[i|we] [have] (pour|poured|put) [it] back [(in|into) [the|its] bottle]",
    "[i|we] [have] (returned|poured back) [it|{volume}]",
    "{none} [goes|went|comes] back (in|into|to) {bottle}",
  ],
  slots: { held: "held", none: "none", jug: "inJug" },
  examples: ["back in Acorn", "280 ml back in Acorn"],
  fields: z.object({
    bottle: z.string().optional(),
    solution: z.string().optional(),
    volume: z
      .number()
      .min(0, "Say how much goes back, like 280 ml.")
      .max(25_000, "No bottle holds that much. Say how much goes back, like 280 ml.")
      .transform(millilitres)
      .optional(),
    none: z.literal(true).optional(),
    held: z.string().optional(),
    /** What the jug holds, asked where something else is out: a bath, or the id of its bottle. */
    jug: z.string().optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    held: "the name that was read off the bottle in hand",
    returned_ml: "poured back, mL",
    lost_ml: "poured out before and not come back, mL",
    contents_ml: "in it now, mL",
    fill: "how full it stands now",
    bath: "what was on its way, when it was stopped",
    holds: "what the bottle holds, when it was stopped",
    out: "other bottles whose solution is out, by name, when it was stopped",
    ...lookValues,
  },
  run({ bench, now }, { bottle: id, solution, volume, none, held, jug }) {
    const target = targetOf(bench, now, id, solution);
    if ("reply" in target) return target.reply;
    const { bottle } = target;
    if (roleOf(bottle) !== "working") {
      return refuse(
        "one-way",
        `STOP. ${bottle.name} is a ${roleOf(bottle)}. What has left it never goes back.`,
        { say: `STOP. Nothing goes back into ${bottle.name}.`, facts: { bottle: bottle.name } },
      );
    }
    if (none === true) return nothingBack(bench, bottle, now);
    const blocked = wayBlocked(bench, bottle, solution, now) ?? jugBlocked(bench, bottle, jug);
    if (blocked !== undefined) return blocked;
    // The name of a bottle of which nothing is out, said by habit, is no answer.
    const unsaid = jug === undefined || (jug === bottle.id && bottle.out === undefined);
    if (solution === undefined && unsaid) {
      const elsewhere = outElsewhere(bench, bottle, now);
      if (elsewhere.length > 0) return whatIsInTheJug(bottle, elsewhere, volume);
    }
    const amount = volume ?? bottle.out ?? millilitres(0);
    const free = sizeOf(bottle) - contentsOf(bottle);
    if (amount > free + 1e-6 && volume !== undefined) {
      return refuse(
        "no-room",
        `${bottle.name} has room for ${showVolume(millilitres(Math.max(0, free)))}, and that is ${showVolume(amount)}. Check the bottle: is it the right one?`,
        { say: `${bottle.name} has no room for that. Right bottle?` },
      );
    }
    if (held === undefined) {
      return askFor(
        "returned",
        { bottle: bottle.id, solution, volume, jug },
        "held",
        "Before it goes back: say the name on the bottle you hold.",
        undefined,
        { say: "Say the name on the bottle you hold.", facts: { bottle: bottle.name } },
      );
    }
    if (held !== bottle.id) {
      const kept = toJson({ bottle: bottle.id, solution, volume, jug });
      return {
        ...wrongInHand(bench, bottle, held),
        ask: { command: "returned", fields: kept, slot: "held" },
      };
    }
    return back(bench, bottle, amount, now);
  },
});

/** The named bottle, or the one the bath in hand came from. */
function targetOf(
  bench: Bench,
  now: Instant,
  id: string | undefined,
  solution: string | undefined,
): { readonly bottle: Bottle } | { readonly reply: Reply } {
  if (id !== undefined) return bottleMeant(bench, id);
  const stage = inHand(bench, now);
  const fits =
    stage?.bottle !== undefined &&
    (solution === undefined || stage.kind === solution || stage.bath === solution);
  if (fits && stage.bottle !== undefined) return bottleMeant(bench, stage.bottle);
  const holding = liveBottles(bench).filter(({ bath }) => bath === solution);
  const only = holding[0];
  if (only !== undefined && holding.length === 1) return { bottle: only };
  const offered = (holding.length > 0 ? holding : liveBottles(bench)).slice(0, 6);
  if (offered.length === 0) {
    return { reply: refuse("no-such-bottle", "I know no bottles yet. Say bottle developer.") };
  }
  return {
    reply: askFor(
      "returned",
      { solution },
      "bottle",
      "Back into which bottle?",
      offered.map(({ id: value, name }) => ({ word: name, value })),
    ),
  };
}

/** What is said to be in hand, or what left the tank last, against what the bottle holds. */
function wayBlocked(
  bench: Bench,
  bottle: Bottle,
  solution: string | undefined,
  now: Instant,
): Reply | undefined {
  if (solution !== undefined) return blockedWay(bottle, solution, solution);
  const stage = inHand(bench, now);
  if (stage === undefined || stage.bottle === bottle.id) return undefined;
  const blocked = blockedWay(bottle, stage.bath, stage.kind);
  if (blocked === undefined) return undefined;
  return {
    ...blocked,
    lines: [
      `What left the tank last is ${stage.bath}. If this is ${bottle.bath} from a jug, say ${bottle.bath} back in ${bottle.name}.`,
      ...blocked.lines,
    ],
  };
}

/**
 * Bottles whose solution is on its way, while this one's is not as far as I know; and for a
 * developer, whatever is out that would ruin it, even when some of its own is out too.
 */
function outElsewhere(bench: Bench, bottle: Bottle, now: Instant): readonly Bottle[] {
  const hand = inHand(bench, now);
  if (hand?.bottle === bottle.id) return [];
  const others = liveBottles(bench).filter(
    ({ id, out }) => id !== bottle.id && ((out ?? 0) > 0 || hand?.bottle === id),
  );
  if (bottle.out === undefined) return others;
  return isDeveloper(bottle.bath) ? others.filter(({ bath }) => spoilsDeveloper(bath)) : [];
}

function whatIsInTheJug(
  bottle: Bottle,
  others: readonly Bottle[],
  volume: Millilitres | undefined,
): Reply {
  const out = others.map(({ name, bath }) => `${bath} of ${name}`).join(" and ");
  const own =
    bottle.out === undefined
      ? `By my book nothing is out of ${bottle.name}, but ${out} is.`
      : `Not only ${bottle.name} is out, ${out} is too.`;
  return askFor(
    "returned",
    { bottle: bottle.id, volume },
    "jug",
    `STOP. ${own} What is in the jug?`,
    undefined,
    {
      say: "STOP. Something else is out. What is in the jug?",
      lines: [
        `${bottle.name} holds ${bottle.bath}. Say what the jug holds; not sure: pour nothing.`,
      ],
      facts: { bottle: bottle.name, holds: bottle.bath, out: others.map(({ name }) => name) },
    },
  );
}

/** What the jug was said to hold, against the bottle it shall go into. */
function jugBlocked(bench: Bench, bottle: Bottle, jug: string | undefined): Reply | undefined {
  if (jug === undefined || jug === bottle.id) return undefined;
  const from = ownValue(bench.bottles, jug);
  const bath = from?.bath ?? jug;
  const blocked = blockedWay(bottle, bath, bath);
  if (blocked !== undefined || from === undefined) return blocked;
  return refuse(
    "wrong-bottle",
    `STOP. That came out of ${from.name}, and this is ${bottle.name}. Say back in ${from.name}.`,
    {
      say: `STOP. That belongs into ${from.name}.`,
      lines: ["To be put together all the same? Say poured 300 ml from one into the other."],
      facts: { bottle: bottle.name, holds: bottle.bath, bath },
    },
  );
}

function wrongInHand(bench: Bench, bottle: Bottle, held: string): Reply {
  const other = ownValue(bench.bottles, held);
  const name = other?.name ?? held;
  const holds =
    other === undefined ? "I know no bottle in use of that name" : `that is ${other.bath}`;
  return refuse(
    "wrong-bottle",
    `STOP. You hold ${name}: ${holds}. This goes into ${bottle.name}, the ${bottle.mark}. Pour nothing.`,
    {
      say: `STOP. You hold ${name}. Pour nothing.`,
      lines: [`Put it down, cap on. Take ${bottle.name}, then say its name.`],
      facts: {
        bottle: bottle.name,
        held: name,
        ...(other === undefined ? {} : { holds: other.bath }),
      },
    },
  );
}

function nothingBack(bench: Bench, bottle: Bottle, now: Instant) {
  const lost = bottle.out ?? 0;
  const { out: _, ...rest } = bottle;
  const look = lookNow(bench, rest, now);
  return withBottle(
    bench,
    rest,
    answer({
      title: `Nothing goes back in ${bottle.name}: ${showVolume(contentsOf(bottle))} in it, ${fillWords[fillNow(bottle)]}.`,
      lines: dueLine(look),
      say: `${bottle.name} stays at ${showVolume(contentsOf(bottle))}.`,
      facts: {
        bottle: bottle.name,
        fill: fillNow(bottle),
        state: look.state,
        governs: look.governs ?? null,
      },
      figures: {
        lost_ml: { value: lost, origin: { kind: "own log" } },
        returned_ml: { value: 0, origin: { kind: "told" } },
        contents_ml: { value: contentsOf(bottle), origin: { kind: "own log" } },
        ...stateFigures(look),
      },
    }),
  );
}

function back(bench: Bench, bottle: Bottle, amount: Millilitres, now: Instant) {
  const lost = Math.max(0, (bottle.out ?? amount) - amount);
  // Poured into a smaller bottle meanwhile, and now more comes back: it is a larger one again.
  const size = millilitres(Math.max(sizeOf(bottle), contentsOf(bottle) + amount));
  const filled = pourBack({ ...bottle, size }, amount, dateOf(now, bench.zone));
  const look = lookNow(bench, filled, now);
  return withBottle(
    bench,
    filled,
    answer({
      title: `${bottle.name} it is. ${showVolume(contentsOf(filled))} in it, ${fillWords[fillNow(filled)]}.`,
      lines: [
        ...(amount === 0 ? ["Nothing was out by my book; I keep its volume as it was."] : []),
        ...(lost > 0.5 ? [`${showVolume(millilitres(lost))} did not come back.`] : []),
        ...dueLine(look),
      ],
      say: `Good. ${bottle.name}, ${fillWords[fillNow(filled)]}. Cap it.`,
      facts: {
        bottle: bottle.name,
        held: bottle.name,
        fill: fillNow(filled),
        state: look.state,
        governs: look.governs ?? null,
      },
      figures: {
        returned_ml: { value: amount, origin: { kind: "told" } },
        lost_ml: { value: lost, origin: { kind: "computed", source: "poured out less back" } },
        contents_ml: {
          value: contentsOf(filled),
          origin: { kind: "computed", source: "what was in it plus what came back" },
        },
        ...stateFigures(look),
      },
      working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
    }),
  );
}
