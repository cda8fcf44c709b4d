import { z } from "zod";
import { dueLine, fillWords, lookValues, stateFigures } from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { contentsOf, fillLevels, sizeOf } from "../src/domain/chemistry/bottle.ts";
import { levelOf, shareOf, withFill } from "../src/domain/chemistry/fill.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { millilitres } from "../src/domain/units/quantity.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

export const fillCommand = defineCommand({
  name: "fill",
  summary: "Say how full a bottle stands: air ages what is in it.",
  topic: "bottle",
  sentences: [
    "[bottle] {bottle} (is|stands|looks) [now|only|about] {fill}",
    "(fill [level] of|level of) {bottle} [is] {fill}",
    "there is [now|only] {fill} in {bottle}",
    "(fill|fill level) (of|for) {bottle}",
    "(fill|fill level)",
  ],
  examples: ["Acorn is half full"],
  fields: z.object({
    bottle: z.string("Which bottle?"),
    fill: z.enum(fillLevels, "How full is it: full, some air, half or less?"),
  }),
  changes: true,
  values: {
    bottle: "its name",
    fill: "how full it stands: full, some air, half or less",
    contents_ml: "about how much is in it, mL",
    ...lookValues,
  },
  run({ bench, now }, { bottle: id, fill }) {
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const size = sizeOf(bottle);
    // What was poured by measure is kept as long as it agrees with what the eye says.
    const fits = levelOf(contentsOf(bottle), size) === fill || bottle.container === "collapsing";
    const contents = fits ? contentsOf(bottle) : millilitres(size * shareOf[fill]);
    const filled = withFill({ ...bottle, contents }, fill, dateOf(now, bench.zone));
    const look = lookNow(bench, filled, now);
    return withBottle(
      bench,
      filled,
      answer({
        title: `${bottle.name}: ${fillWords[fill]}, about ${showVolume(contents)}.`,
        lines: dueLine(look),
        say: `${bottle.name}: ${fillWords[fill]}.`,
        facts: { bottle: bottle.name, fill, state: look.state, governs: look.governs ?? null },
        figures: {
          contents_ml: {
            value: contents,
            origin: fits
              ? { kind: "own log" }
              : { kind: "computed", source: "from how full it stands" },
          },
          ...stateFigures(look),
        },
        working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
      }),
    );
  },
});
