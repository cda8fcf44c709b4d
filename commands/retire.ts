import { z } from "zod";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { retiredReply } from "../src/commands/bottle-meant.ts";
import { costLine } from "../src/commands/cost-lines.ts";
import { askFor, confirm, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import {
  type Drain,
  drainOptions,
  OPEN_ROUTE,
  wasteRoute,
  withDrain,
} from "../src/commands/waste-route.ts";
import { localCodes } from "../src/data/disposal.ts";
import { bathCautions } from "../src/data/safety.ts";
import type { Bottle } from "../src/domain/chemistry/bottle.ts";
import { type BottleLook, failedTest } from "../src/domain/chemistry/look.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { plain, showUnits, showVolume } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const retireCommand = defineCommand({
  name: "retire",
  summary: "Take a bottle out of use: where it may go, and its record closed.",
  topic: "bottle",
  sentences: [
    "(throw|put|pour|tip) [the] {bottle} (out|away) [(because|since|as) {reason}]",
    "{bottle} is [now|all] (empty|used up|finished|all gone|gone|thrown away|poured away)",
    "(retire|discard|throw (out|away)|pour (out|away)|dump|dump out|empty|get rid of|dispose of|bin|delete|remove) [the] [bottle] {bottle} [(because|since|as) {reason}]",
  ],
  slots: { sure: "yes", reason: "text" },
  examples: ["retire Acorn"],
  fields: z.object({
    bottle: z.string("Which bottle?"),
    reason: z.string().max(200, "Say in a few words why.").optional(),
    sure: z.boolean().optional(),
    drain: z.enum(["sewer", "septic", "unknown"]).optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    units: "film it did, units of 80 sq in",
    why: "why it is retired",
    route: "where it may go, in a few words",
    source: "where that comes from",
    drain: "sewer, septic or unknown: what was told",
    cost: "price for each unit of film it did; missing without a price",
    currency: "the word the price was given in",
  },
  run({ bench, now }, { bottle, reason, sure, drain }) {
    const found = ownValue(bench.bottles, bottle);
    if (found === undefined) return refuse("no-such-bottle", "I know no such bottle. Say bottles.");
    if (found.retiredOn !== undefined) {
      // The drain is answered after the fact: the bottle went out of use at once.
      const open = found.retired?.route === OPEN_ROUTE && drain !== undefined;
      return open ? closed(withDrain(bench, drain), found.id, drain, now) : retiredReply(found);
    }
    const busy = liveRuns(bench).find((run) => run.stages.some((stage) => stage.bottle === bottle));
    if (busy !== undefined) {
      return refuse(
        "in-use",
        `${found.name} is in use in ${busy.tank}. Finish or stop that run first.`,
        {
          say: `${found.name} is in use. Finish the run first.`,
        },
      );
    }
    if (sure === undefined) {
      const out =
        found.out === undefined ? [] : [`${showVolume(found.out)} of it is out by my book.`];
      const title = `Retire ${found.name}, ${found.bath}?`;
      return confirm("retire", { bottle, reason }, "sure", title, { lines: out });
    }
    if (!sure) return answer({ title: `${found.name} stays.`, say: `${found.name} stays.` });
    const told = withDrain(bench, drain);
    const known = told.waste?.drain;
    const why = reason ?? whyNow(lookNow(bench, found, now));
    const on = dateOf(now, bench.zone);
    const gone: Bottle = { ...found, retiredOn: on, retired: { on, why, route: OPEN_ROUTE } };
    const retired: Bench = { ...told, bottles: { ...told.bottles, [bottle]: gone } };
    if (known !== undefined) return closed(retired, bottle, known, now);
    return {
      bench: retired,
      reply: askFor(
        "retire",
        { bottle },
        "drain",
        `${found.name} is retired after ${showUnits(found.used)}. Cross out the label now. Where does your drain go: sewer or septic?`,
        drainOptions,
        {
          lines: [`Why: ${why}.`, `The drain decides where ${found.bath} may go.`],
          say: `${found.name} is retired. Your drain: sewer or septic?`,
          facts: { bottle: found.name, why },
          figures: { units: { value: found.used, origin: { kind: "own log" } } },
        },
      ),
    };
  },
});

/** The record of a retired bottle with its route in it, and all there is to say about it. */
function closed(bench: Bench, id: string, drain: Drain, now: Instant): Outcome {
  const found = ownValue(bench.bottles, id);
  if (found === undefined) throw new Error("the bottle that was retired is gone");
  const { why, on } = found.retired ?? { why: "you said so", on: dateOf(now, bench.zone) };
  const { route, text, source } = wasteRoute(bench, found.bath, drain);
  const cost = costLine(found);
  const record: Bottle = { ...found, retiredOn: on, retired: { on, why, route } };
  return {
    bench: { ...bench, bottles: { ...bench.bottles, [id]: record } },
    reply: answer({
      title: `${found.name} is retired after ${showUnits(found.used)}. Cross out the label now.`,
      lines: [
        `Why: ${why}.`,
        `Where: ${text}`,
        localCodes,
        ...(bathCautions[found.bath] ?? [])
          .filter(({ when }) => when.includes("retire"))
          .map((caution) => caution.text)
          .filter((caution) => !text.includes("silver") || !caution.includes("silver")),
        "Whatever holds the waste: label it, never a drink bottle.",
        ...(cost === undefined ? [] : [cost.line]),
      ],
      say: `${found.name} is retired. Cross out the label now.`,
      facts: {
        bottle: found.name,
        why,
        route,
        source,
        drain,
        ...(cost === undefined ? {} : { currency: cost.currency }),
      },
      figures: {
        units: { value: found.used, origin: { kind: "own log" } },
        ...(cost?.soFar === undefined
          ? {}
          : {
              cost: {
                value: cost.soFar,
                origin: { kind: "computed", source: "price by film done" },
              },
            }),
      },
      working: [`Route: ${source}.`],
    }),
  };
}

/** Why a bottle is out, where nobody said: the first of its limits that was reached. */
function whyNow(look: BottleLook): string {
  const { bottle, due, age, worn, capacity } = look;
  if (bottle.suspect !== undefined) return `suspect: ${bottle.suspect.why}`;
  if (failedTest(bottle)) return "its clip test failed";
  if ((age ?? 0) > 1 && due !== undefined) return `past its keeping time since ${showDate(due)}`;
  if ((worn ?? 0) >= 1 - 1e-9 && capacity !== undefined) {
    return `its film is done, ${plain(bottle.used, 2)} of ${plain(capacity.value, 2)}`;
  }
  return "you said so";
}
