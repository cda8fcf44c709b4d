import { z } from "zod";
import {
  ageWords,
  clocksLine,
  doubtLine,
  dueLine,
  filmLine,
  governsWords,
  lookJson,
  lookValues,
  standsLine,
  stateFigures,
  stateWord,
  testedLine,
} from "../src/commands/bottle-lines.ts";
import { lookOn, looksOn } from "../src/commands/bottle-looks.ts";
import { retiredReply } from "../src/commands/bottle-meant.ts";
import { holds } from "../src/commands/bottle-of-bath.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { labelLines } from "../src/commands/label-text.ts";
import { unconfirmed } from "../src/commands/read-back.ts";
import type { BottleLook } from "../src/domain/chemistry/look.ts";
import { ownValue } from "../src/domain/own-value.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf, daysBetween, showDate } from "../src/domain/timing/clock-text.ts";
import { showUnits, showVolume } from "../src/domain/units/show.ts";
import { answer, type Json, type Reply } from "../src/reply/reply.ts";

export const bottlesCommand = defineCommand({
  name: "bottles",
  summary: "Every bottle with both its clocks, age and film, and which runs out first.",
  topic: "bottle",
  sentences: [
    "[show [me]|list|what] [all] bottles [do i have|do we have]",
    "(how old is|how old are|how is|how are|show|about|label [for]|age of|units on|rolls on|state of) [bottle] {bottle}",
    "(how old is|how old are|how is|age of|state of) {solution}",
    "how full (is|are) ({bottle}|{solution})",
    "(what|how much) is in {bottle}",
    "how much is left in {bottle}",
    "(is|are) ({bottle}|{solution}) [still|all] (good|usable|alive|fresh|ok|alright|fine|sound|safe)",
    "({bottle}|{solution}) still (good|usable|ok|alright|fine|alive|safe)",
    "(is|are) ({bottle}|{solution}) [still] (any good|of any use)",
    "(is|are) [all|any of] [the|my|our] bottles [still|all] [any] (good|usable|fresh|ok|alright|fine|safe)",
    "how many (rolls|units) (has|on|did) {bottle} [done]",
    "[bottle] {bottle}",
  ],
  examples: ["bottles", "how old is Acorn", "label for Acorn"],
  fields: z.object({ bottle: z.string().optional(), solution: z.string().optional() }),
  changes: false,
  values: {
    bottles:
      "one entry a bottle: bottle, mark, bath, volume_ml, mixed_on, by, age_days, units, state, tested, governs, due, days_left, units_left, age_share, contents_ml, fill",
    label: "label text of the one bottle asked for, one entry a line",
    ...lookValues,
  },
  run({ bench, now }, { bottle, solution }) {
    const today = dateOf(now, bench.zone);
    const one = bottle === undefined ? undefined : ownValue(bench.bottles, bottle);
    if (one?.retiredOn !== undefined) return retiredReply(one);
    if (one !== undefined) return single(bench, lookOn(bench, one, today), today);
    const all = looksOn(bench, today);
    const looks =
      solution === undefined ? all : all.filter((look) => holds(look.bottle.bath, solution));
    const first = looks[0];
    if (first === undefined) {
      return answer({
        title: solution === undefined ? "No bottles yet." : `No bottle of ${solution}.`,
        lines: [`Say bottle ${solution ?? "developer"} 1 litre mixed today.`],
        say: solution === undefined ? "No bottles yet." : `No bottle of ${solution}.`,
        facts: { bottles: [] },
      });
    }
    if (looks.length === 1) return single(bench, first, today, false);
    const names = looks.slice(0, 4).map((look) => look.bottle.name);
    return answer({
      title: `${looks.length} bottles${solution === undefined ? "" : ` of ${solution}`}`,
      lines: looks.flatMap((look) => [
        lineOf(look, today),
        `  ${stateWord(look)}; ${clocksLine(look)}`,
      ]),
      say: `${looks.length} bottles: ${names.join(", ")}.`,
      figures: {
        bottles: { value: looks.map((look) => rowOf(look, today)), origin: { kind: "own log" } },
      },
      working: looks.flatMap((look) =>
        look.keeping === undefined ? [] : [`${look.bottle.name} keeps: ${look.keeping.how}`],
      ),
    });
  },
});

function single(bench: Bench, look: BottleLook, today: string, labelled = true): Reply {
  const { bottle } = look;
  const label = labelled ? labelLines(look) : [];
  const open = unconfirmed(bench, bottle.id);
  return answer({
    title: lineOf(look, today),
    lines: [
      `State: ${stateWord(look)}, ${governsWords(look)}`,
      ...dueLine(look),
      ...filmLine(look),
      ...(open === 0 ? [] : [`Unconfirmed: ${showUnits(open)} of it; the higher count stands.`]),
      standsLine(look),
      ...testedLine(look),
      ...(bottle.dateAssumed === undefined ? [] : [`Date not known: ${bottle.dateAssumed}.`]),
      ...doubtLine(look),
      ...label.map((text) => `| ${text}`),
    ],
    say:
      look.state === "suspect"
        ? `${bottle.name} is SUSPECT. No film in it.`
        : `${bottle.name}: ${ageWords(look, today)}, ${governsWords(look)}.`,
    figures: {
      bottles: { value: [rowOf(look, today)], origin: { kind: "own log" } },
      ...stateFigures(look),
    },
    facts: {
      state: look.state,
      governs: look.governs ?? null,
      ...(label.length > 0 ? { label } : {}),
    },
    working: [
      ...(look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`]),
      ...(bottle.fills ?? []).map(({ on, fill }) => `  from ${showDate(on)}: ${fill}`),
    ],
  });
}

const lineOf = (look: BottleLook, today: string): string => {
  const { bottle } = look;
  const role = bottle.role === undefined ? "" : ` ${bottle.role}`;
  const verb = bottle.role === "concentrate" ? "opened" : "mixed";
  const assumed = bottle.dateAssumed === undefined ? "" : ", assumed";
  return `${bottle.name} (${bottle.mark}): ${bottle.bath}${role}, ${showVolume(bottle.volume)}, ${ageWords(look, today)} (${verb} ${showDate(bottle.mixedOn)}${assumed}), ${showUnits(bottle.used)} done`;
};

const rowOf = (look: BottleLook, today: string): Json => ({
  bottle: look.bottle.name,
  mark: look.bottle.mark,
  bath: look.bottle.bath,
  volume_ml: look.bottle.volume,
  mixed_on: look.bottle.mixedOn,
  by: look.bottle.by,
  age_days: daysBetween(look.bottle.mixedOn, today),
  units: look.bottle.used,
  ...lookJson(look),
});
