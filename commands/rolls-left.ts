import { z } from "zod";
import {
  doubtLine,
  dueLine,
  filmLine,
  governsWords,
  lookValues,
  stateFigures,
} from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleOfBath } from "../src/commands/bottle-of-bath.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { unconfirmed } from "../src/commands/read-back.ts";
import { plain, showUnits } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const rollsLeftCommand = defineCommand({
  name: "rolls left",
  summary: "How much film a bottle can still do.",
  topic: "bottle",
  sentences: [
    "how many [more] (rolls|units|films) [(are|is)] left [(in|for|on) ({bottle}|{solution})]",
    "how many [more] (rolls|units|films) [are] [left] (can|could|will|does) ({bottle}|{solution}) [still] (do|take|have left)",
    "how many [more] (rolls|units|films) (has|have) ({bottle}|{solution}) [got] left",
    "how many [more] (rolls|units|films) [can (i|we) [still] (do|develop)] [left] (in|with|from) ({bottle}|{solution})",
    "(rolls|units|capacity) left [(in|for|of|on) ({bottle}|{solution})]",
    "what is left (in|of) ({bottle}|{solution})",
    "how much (film|capacity) (is|has) [left] (in|of) ({bottle}|{solution}) [left]",
    "how much (film|more film) (can|will) ({bottle}|{solution}) [still] (do|take)",
  ],
  examples: ["how many rolls are left in Acorn"],
  fields: z.object({ bottle: z.string().optional(), solution: z.string().optional() }),
  changes: false,
  values: {
    bottle: "its name",
    units: "film done, units of 80 sq in",
    unconfirmed_units: "of these, film whose count nobody confirmed",
    ...lookValues,
  },
  run({ bench, now }, wanted) {
    const meant = bottleOfBath(bench, wanted, "rolls left", "In which bottle?");
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const look = lookNow(bench, bottle, now);
    if (look.unitsLeft === undefined || look.capacity === undefined) {
      return refuse(
        "no-capacity",
        `No sheet says how much film ${bottle.name} can do. It has done ${showUnits(bottle.used)}. Teach me its sheet.`,
        {
          say: `No sheet says what ${bottle.name} can do.`,
          lines: dueLine(look),
          facts: { bottle: bottle.name, state: look.state, governs: look.governs ?? null },
          figures: {
            units: { value: bottle.used, origin: { kind: "own log" } },
            ...stateFigures(look),
          },
        },
      );
    }
    const open = unconfirmed(bench, bottle.id);
    return answer({
      title: `${bottle.name}: ${showUnits(look.unitsLeft)} left, ${governsWords(look)}.`,
      lines: [
        ...filmLine(look),
        ...(open === 0
          ? []
          : [`Unconfirmed: ${showUnits(open)} of what it did; the higher count stands.`]),
        ...dueLine(look),
        ...doubtLine(look),
      ],
      say: `${bottle.name}: ${plain(look.unitsLeft, 1)} rolls left, ${look.governs ?? "no"} clock governs.`,
      figures: {
        units: { value: bottle.used, origin: { kind: "own log" } },
        unconfirmed_units: { value: open, origin: { kind: "own log" } },
        ...stateFigures(look),
      },
      facts: { bottle: bottle.name, state: look.state, governs: look.governs ?? null },
      working: [
        `Capacity ${plain(look.capacity.value, 2)} for ${plain(bottle.volume, 0)} mL, less ${plain(bottle.used, 2)} done, for what is still in it.`,
        "One unit is 80 sq in: a 135-36 or a 120 roll.",
      ],
    });
  },
});
