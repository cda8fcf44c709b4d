import { z } from "zod";
import {
  doubtLine,
  dueLine,
  filmLine,
  governsWords,
  lookValues,
  stateFigures,
  stateWord,
  testedLine,
} from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleOfBath } from "../src/commands/bottle-of-bath.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { showDate } from "../src/domain/timing/clock-text.ts";
import { answer } from "../src/reply/reply.ts";

export const expiresCommand = defineCommand({
  name: "expires",
  summary: "Until which day a bottle is good, and which of its two clocks ends first.",
  topic: "bottle",
  sentences: [
    "when (does|do|will) ({bottle}|{solution}) (expire|run out|go off|go bad|die|end|turn)",
    "when is ({bottle}|{solution}) (due|off|over|out of date|past its limit|finished)",
    "(until when|how long) (is|does|will) ({bottle}|{solution}) [still] [be] (good|keep|last|usable)",
    "(due date|expiry|expiry date|best before) (of|for) ({bottle}|{solution})",
  ],
  examples: ["when does Acorn expire"],
  fields: z.object({ bottle: z.string().optional(), solution: z.string().optional() }),
  changes: false,
  values: { bottle: "its name", ...lookValues },
  run({ bench, now }, wanted) {
    const meant = bottleOfBath(bench, wanted, "expires", "Which bottle?");
    if ("reply" in meant) return meant.reply;
    const look = lookNow(bench, meant.bottle, now);
    const { name } = meant.bottle;
    const bad = look.state === "suspect" ? ` It is ${stateWord(look)}.` : "";
    const until =
      look.due === undefined
        ? `${name}: no keeping time known.`
        : `${name}: good to ${showDate(look.due)}.`;
    return answer({
      title: `${until} State: ${stateWord(look)}, ${governsWords(look)}.`,
      lines: [...dueLine(look), ...filmLine(look), ...testedLine(look), ...doubtLine(look)],
      say: `${until}${bad}`,
      facts: { bottle: name, state: look.state, governs: look.governs ?? null },
      figures: stateFigures(look),
      working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
    });
  },
});
