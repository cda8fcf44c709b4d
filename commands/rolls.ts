import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import {
  rollJson,
  rollJsonKeys,
  rollLine,
  rollsMeant,
  rollWords,
  runOfRoll,
} from "../src/commands/roll-text.ts";
import { areaOrigin, filmUnits } from "../src/domain/film/load.ts";
import { callRoll, isWaiting, type Roll } from "../src/domain/film/roll.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf, daysBetween, showDate } from "../src/domain/timing/clock-text.ts";
import { showUnits } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

/** Lines a person reads, and entries a program gets at once. */
const MOST_LINES = 30;
const MOST_VALUES = 200;

export const rollsCommand = defineCommand({
  name: "rolls",
  summary: "The film that waits, or everything about one roll.",
  topic: "film",
  sentences: [
    "[show|list|what|which] [all] (rolls|backlog|roll list) [wait|are waiting|do i have|do we have|are there|to develop]",
    "what film (waits|is waiting|do i have|do we have)",
    "how many rolls (wait|are waiting|are there|do i have|do we have)",
    "(show|about|what is|what about) {rolls}",
    "{rolls}",
  ],
  examples: ["rolls", "show roll 3"],
  fields: z.object({
    rolls: z.object({ ids: z.array(z.string()), unknown: z.array(z.string()) }).optional(),
  }),
  changes: false,
  values: {
    rolls: `one entry a roll, ${MOST_VALUES} at most: ${rollJsonKeys}`,
    count: "rolls that wait, or that were asked for",
    units: "their film, units of 80 sq in",
    unmarked: "how many of them have no marking stated",
  },
  run({ bench, now }, { rolls: meant }) {
    const found =
      meant === undefined
        ? { rolls: Object.values(bench.rolls).filter(isWaiting) }
        : rollsMeant(bench, meant);
    if ("reply" in found) return found.reply;
    const { rolls } = found;
    const [only] = rolls;
    if (only === undefined) {
      return answer({
        title: "No rolls wait.",
        lines: ["Say add two rolls of 120 marked C-41."],
        say: "No rolls wait.",
        facts: { rolls: [] },
      });
    }
    const film = rolls.map(({ format }) => ({ format, count: 1 }));
    const units = filmUnits(film);
    const unmarked = rolls.filter(({ marked }) => marked === undefined).length;
    const one = rolls.length === 1;
    const today = dateOf(now, bench.zone);
    const shown = rolls.slice(0, MOST_LINES);
    return answer({
      title: one
        ? `${callRoll(only)}: ${rollWords(only)}`
        : `${rolls.length} rolls${meant === undefined ? " wait" : ""}, ${showUnits(units)}`,
      lines: one
        ? [standing(bench, only, today)]
        : [
            ...shown.map(rollLine),
            ...(rolls.length > shown.length ? [`and ${rolls.length - shown.length} more.`] : []),
            ...(unmarked === 0
              ? []
              : [`${unmarked} without a stated marking: they go into no tank.`]),
          ],
      say: one
        ? `Roll ${only.number}: ${only.format}, ${only.marked ?? "not marked"}.`
        : `${rolls.length} rolls, ${showUnits(units)}.${unmarked === 0 ? "" : ` ${unmarked} without a marking.`}`,
      facts: { rolls: rolls.slice(0, MOST_VALUES).map(rollJson) },
      figures: {
        count: { value: rolls.length, origin: { kind: "own log" } },
        units: { value: units, origin: areaOrigin(film) },
        unmarked: { value: unmarked, origin: { kind: "own log" } },
      },
    });
  },
});

function standing(bench: Bench, roll: Roll, today: string): string {
  const run = runOfRoll(bench, roll);
  if (run !== undefined) return `Loaded in ${run.tank}.`;
  const on = roll.addedOn === undefined ? "" : `, on the list since ${showDate(roll.addedOn)}`;
  if (roll.doneIn !== undefined) return `Processed${on}.`;
  if (roll.droppedOn !== undefined) return `Taken off the list on ${showDate(roll.droppedOn)}.`;
  const days = roll.addedOn === undefined ? 0 : daysBetween(roll.addedOn, today);
  return `Waits${on}${days > 0 ? `, ${days} day${days === 1 ? "" : "s"}` : ""}.`;
}
