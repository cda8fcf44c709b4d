import { z } from "zod";
import { dueLine, fillWords, lookValues, stateFigures } from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { defineCommand, type Outcome, toJson } from "../src/commands/define-command.ts";
import { blockedWay } from "../src/commands/one-way.ts";
import {
  type Bottle,
  contentsOf,
  fillNow,
  roleOf,
  sizeOf,
} from "../src/domain/chemistry/bottle.ts";
import { pourFrom } from "../src/domain/chemistry/fill.ts";
import { failedTest } from "../src/domain/chemistry/look.ts";
import { pourTogether } from "../src/domain/chemistry/pour-together.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { isDeveloper, spoilsDeveloper } from "../src/domain/process/sheet.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { type Millilitres, millilitres } from "../src/domain/units/quantity.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

export const pouredCommand = defineCommand({
  name: "poured",
  summary: "Note what was poured from a bottle: the air that is left ages the rest.",
  topic: "bottle",
  sentences: [
    "[i|we] [have] (poured|took|taken|used|pour|take) [out] {volume} [out] (from|of|out of) {bottle} [(in|into|to) [the] {into}]",
    "[i|we] [have] (poured|took|taken|pour|take) [out] {volume} [out] (from|of|out of) {bottle} (in|into|to) [the] {vessel}",
    "[i|we] [have] (poured|took|taken) [some|a bit] [out] (from|of|out of) {bottle}",
    "{volume} (out of|from|out from) {bottle} [(in|into|to) [the] {vessel}]",
  ],
  slots: { into: "bottle", vessel: "newName", washed: "yes" },
  examples: ["poured 300 ml from Acorn", "poured 300 ml from Acorn into the small jug"],
  fields: z.object({
    bottle: z.string("From which bottle?"),
    volume: z
      .number("How much was poured, with its unit?")
      .min(0.1, "Say how much was poured, like 300 ml.")
      .max(25_000, "No bottle holds that much. Say how much was poured, like 300 ml.")
      .transform(millilitres),
    into: z.string().optional(),
    vessel: z.string().max(30, "Give the vessel a short name, like small jug.").optional(),
    washed: z.boolean().optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    poured_ml: "poured out, mL",
    contents_ml: "left in it, mL",
    fill: "how full it stands now: full, some air, half or less",
    out_ml: "poured out and expected back, mL; missing for a stock or concentrate",
    vessel: "the vessel it went into, when one was named",
    into: "the bottle it went into, when one was named",
    bath: "what was on its way, when it was stopped",
    holds: "what the other bottle holds, when it was stopped",
    ...lookValues,
  },
  run(at, { bottle: id, volume, into, vessel, washed }) {
    const { bench, now } = at;
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const there = contentsOf(bottle);
    if (volume > there + 1e-6) {
      return refuse(
        "more-than-there",
        `${bottle.name} holds ${showVolume(there)}, and you said ${showVolume(volume)}. Give what was poured, or say how full it is.`,
        {
          say: `${bottle.name} holds only ${showVolume(there)}.`,
          facts: { bottle: bottle.name },
          figures: { contents_ml: { value: there, origin: { kind: "own log" } } },
        },
      );
    }
    if (into !== undefined) return intoBottle(bench, bottle, into, volume, dateOf(now, bench.zone));
    const stopped = vesselInTheWay(bench, bottle, vessel, washed);
    if (stopped === "not-washed") {
      return answer({ title: "Then take another vessel.", say: "Then take another vessel." });
    }
    if (stopped !== undefined) {
      const ask = {
        command: "poured",
        fields: toJson({ bottle: id, volume, vessel }),
        slot: "washed",
        options: yesNo,
      };
      return { ...stopped, ask };
    }
    const back = roleOf(bottle) === "working";
    const poured = pourFrom(bottle, volume, back, dateOf(now, bench.zone));
    const look = lookNow(bench, poured, now);
    const held =
      vessel === undefined
        ? bench.vessels
        : {
            ...bench.vessels,
            [vessel.toLowerCase()]: { bath: bottle.bath, kind: bottle.bath, at: now },
          };
    return withBottle(
      { ...bench, vessels: held },
      poured,
      answer({
        title: `${showVolume(volume)} from ${bottle.name}${vessel === undefined ? "" : ` into the ${vessel}`}: ${showVolume(contentsOf(poured))} left, ${fillWords[fillNow(poured)]}.`,
        lines: [
          ...dueLine(look),
          ...(back
            ? [
                `When it goes back, say back in ${bottle.name}. Not at all? Say nothing back in ${bottle.name}.`,
              ]
            : []),
          ...(poured.container === "collapsing" && poured.fills === bottle.fills
            ? ["Squeeze the air out; I count it as full as before."]
            : []),
        ],
        say: `${bottle.name}: ${showVolume(contentsOf(poured))} left, ${fillWords[fillNow(poured)]}.`,
        facts: {
          bottle: bottle.name,
          fill: fillNow(poured),
          state: look.state,
          governs: look.governs ?? null,
          ...(vessel === undefined ? {} : { vessel }),
        },
        figures: {
          poured_ml: { value: volume, origin: { kind: "told" } },
          contents_ml: {
            value: contentsOf(poured),
            origin: { kind: "computed", source: "what was in it less what was poured" },
          },
          ...(poured.out === undefined
            ? {}
            : { out_ml: { value: poured.out, origin: { kind: "own log" as const } } }),
          ...stateFigures(look),
        },
        working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
      }),
    );
  },
});

const yesNo = [
  { word: "yes", value: true },
  { word: "no", value: false },
];

/** A vessel that held what ruins this developer, and was not said to be washed since. */
function vesselInTheWay(
  bench: Bench,
  bottle: Bottle,
  vessel: string | undefined,
  washed: boolean | undefined,
): Reply | "not-washed" | undefined {
  const before = vessel === undefined ? undefined : ownValue(bench.vessels, vessel.toLowerCase());
  if (before === undefined || !isDeveloper(bottle.bath) || !spoilsDeveloper(before.kind)) {
    return undefined;
  }
  if (washed === true) return undefined;
  if (washed === false) return "not-washed";
  return refuse(
    "one-way",
    `STOP. The ${vessel} held ${before.bath}. A trace of it ruins ${bottle.bath}. Washed since, and dry?`,
    {
      say: `STOP. The ${vessel} held ${before.bath}. Washed?`,
      facts: { bottle: bottle.name, bath: before.bath, holds: bottle.bath },
    },
  );
}

function intoBottle(
  bench: Bench,
  from: Bottle,
  id: string,
  volume: Millilitres,
  today: string,
): Reply | Outcome {
  const meant = bottleMeant(bench, id);
  if ("reply" in meant) return meant.reply;
  const target = meant.bottle;
  if (target.id === from.id) {
    return refuse("same-bottle", `That is ${from.name} into ${from.name}. Name the other bottle.`);
  }
  const blocked = blockedWay(target, from.bath, from.bath);
  if (blocked !== undefined) return blocked;
  if (from.suspect !== undefined || failedTest(from)) {
    const why = from.suspect?.why ?? "its last clip test failed";
    return refuse(
      "suspect",
      `STOP. ${from.name} is suspect: ${why}. It goes into no other bottle. Say clip test ${from.name}.`,
      { say: `STOP. ${from.name} is suspect. Clip test it first.`, facts: { bottle: from.name } },
    );
  }
  if (roleOf(from) !== roleOf(target)) {
    return refuse(
      "wrong-strength",
      `${from.name} is ${roleOf(from)} and ${target.name} is ${roleOf(target)}. They are not poured together.`,
      { say: "Different strengths. Not together." },
    );
  }
  const free = sizeOf(target) - contentsOf(target);
  if (volume > free + 1e-6) {
    return refuse(
      "no-room",
      `${target.name} has room for ${showVolume(millilitres(Math.max(0, free)))}, and that is ${showVolume(volume)}. Pour less.`,
      { say: `${target.name} has no room for that.` },
    );
  }
  const joined = pourTogether(target, from, volume, today);
  const left = pourFrom(from, volume, false, today);
  const bottles = { ...bench.bottles, [left.id]: left, [joined.id]: joined };
  return {
    bench: { ...bench, bottles },
    reply: answer({
      title: `${showVolume(volume)} from ${from.name} into ${target.name}: ${showVolume(contentsOf(joined))} in it, ${fillWords[fillNow(joined)]}.`,
      lines: ["The older date and the harder work of the two count from now on."],
      say: `${target.name}: ${showVolume(contentsOf(joined))}, ${fillWords[fillNow(joined)]}.`,
      facts: { bottle: from.name, into: target.name, fill: fillNow(left) },
      figures: {
        poured_ml: { value: volume, origin: { kind: "told" } },
        contents_ml: {
          value: contentsOf(left),
          origin: { kind: "computed", source: "what was in it less what was poured" },
        },
      },
    }),
  };
}
