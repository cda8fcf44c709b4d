import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { isSettled, rollLine, rollsMeant } from "../src/commands/roll-text.ts";
import { callRolls } from "../src/domain/film/roll.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { answer } from "../src/reply/reply.ts";

export const dropCommand = defineCommand({
  name: "drop",
  summary: "Take rolls off the list undone; their record stays.",
  topic: "film",
  sentences: [
    "(drop|remove|delete|forget|take off|strike) {rolls} [(off|from) [the] (list|backlog)]",
    "(drop|remove|delete) [a] [roll]",
  ],
  slots: { sure: "yes" },
  examples: ["remove roll 3"],
  fields: z.object({
    rolls: z.object(
      { ids: z.array(z.string()), unknown: z.array(z.string()) },
      "Which roll? Say its number or its name.",
    ),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: { dropped: "numbers of the rolls taken off" },
  run({ bench, now }, { rolls: meant, sure }) {
    const found = rollsMeant(bench, meant);
    if ("reply" in found) return found.reply;
    const { rolls } = found;
    for (const roll of rolls) {
      const settled = isSettled(bench, roll);
      if (settled !== undefined) return settled;
    }
    const named = callRolls(rolls);
    const heavy = rolls.length > 1 || rolls.some(({ important }) => important);
    if (heavy && sure === undefined) {
      const why = rolls.some(({ important }) => important)
        ? "An important one is among them. "
        : "";
      return confirm("drop", { rolls: meant }, "sure", `${why}Take ${named} off the list?`);
    }
    if (sure === false) return answer({ title: "They stay on the list.", say: "They stay." });
    const droppedOn = dateOf(now, bench.zone);
    const gone = rolls.map((roll) => ({ ...roll, droppedOn }));
    return {
      bench: {
        ...bench,
        rolls: { ...bench.rolls, ...Object.fromEntries(gone.map((roll) => [roll.id, roll])) },
      },
      reply: answer({
        title: `Off the list: ${named}. Say undo to have it back.`,
        lines: rolls.length === 1 ? [] : rolls.slice(0, 30).map(rollLine),
        say: "Off the list.",
        facts: { dropped: rolls.map(({ number }) => number) },
      }),
    };
  },
});
