import { z } from "zod";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { lookSign } from "../src/data/look-signs.ts";
import { suspectMark } from "../src/domain/session/suspicion.ts";
import { answer } from "../src/reply/reply.ts";

export const looksCommand = defineCommand({
  name: "looks",
  summary: "Say what a bottle looks like: some looks mean it is out.",
  topic: "bottle",
  sentences: [
    "{bottle} (looks|is|has turned|turned|went|has gone|has|shows) [a bit|rather|all|very] {sign}",
    "{bottle} is (getting|going|turning) {sign}",
    "[the] (developer|fixer|blix|bleach|stabilizer|bath|solution) in {bottle} (looks|is|has turned|turned|has gone) [a bit|rather|all|very] {sign}",
    "there (is|are) {sign} in {bottle}",
  ],
  examples: ["Acorn looks yellow"],
  fields: z.object({
    bottle: z.string("Which bottle?"),
    sign: z.string("What does it look like: yellow, cloudy, dark, crystals, a deposit?"),
  }),
  changes: true,
  values: {
    bottle: "its name",
    sign: "what it looks like",
    verdict: "out, or test when a clip test decides",
    source: "where that comes from",
  },
  run({ bench, now }, { bottle: id, sign }) {
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const found = lookSign(bottle.bath, sign);
    const why = `it looks wrong (${sign})`;
    const marked = { ...bottle, suspect: suspectMark(bottle, why, now) };
    const parts = {
      lines: [`[${found.source}]`],
      facts: { bottle: bottle.name, sign, verdict: found.verdict, source: found.source },
      working: [`Founded on: ${found.source}.`],
    };
    if (found.verdict === "out") {
      const asked = confirm(
        "retire",
        { bottle: id, reason: why },
        "sure",
        `${found.text} Retire ${bottle.name} now?`,
        parts,
      );
      return withBottle(bench, marked, asked);
    }
    return withBottle(
      bench,
      marked,
      answer({
        ...parts,
        title: `${bottle.name} is SUSPECT: ${found.text}`,
        lines: [`Say clip test ${bottle.name}.`, ...parts.lines],
        say: `${bottle.name} is suspect. Clip test it first.`,
      }),
    );
  },
});
