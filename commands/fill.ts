import { z } from "zod";
import { dueLine, fillWords, lookValues, stateFigures } from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { askFor, confirm, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import {
  type Bottle,
  contentsOf,
  type FillLevel,
  fillLevels,
  fillNow,
  sizeOf,
} from "../src/domain/chemistry/bottle.ts";
import { levelOf, seenAs, withFill } from "../src/domain/chemistry/fill.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { type Instant, type Millilitres, millilitres } from "../src/domain/units/quantity.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

export const fillCommand = defineCommand({
  name: "fill",
  summary: "Say how full a bottle stands: air ages what is in it.",
  topic: "bottle",
  sentences: [
    "[bottle] {bottle} (is|stands|looks) [now|only|about] {fill}",
    "(fill [level] of|level of) {bottle} [is] {fill}",
    "there is [now|only] {fill} in {bottle}",
    "[i|we] [have] {topped} {bottle}",
    "{bottle} is {topped}",
    "[i|we] [have] (topped|filled) {bottle} {topped}",
    "[i|we] [have] {topped} {bottle} (with|by) {more}",
    "[i|we] [have] (topped|filled) {bottle} {topped} (with|by) {more}",
    "(fill|fill level) (of|for) {bottle}",
    "(fill|fill level)",
  ],
  slots: { topped: "toppedUp", more: "volume", sure: "yes" },
  examples: ["Acorn is half full", "topped up Acorn"],
  fields: z.object({
    bottle: z.string("Which bottle?"),
    fill: z.enum(fillLevels, "How full is it: full, some air, half or less?").optional(),
    topped: z.literal(true).optional(),
    /** So much more of the same, not up to the neck. */
    more: z
      .number()
      .positive("Say how much went in, like 50 ml.")
      .max(25_000, "No bottle holds that much. Say how much went in, like 50 ml.")
      .transform(millilitres)
      .optional(),
    sure: z.boolean().optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    fill: "how full it stands: full, some air, half or less",
    contents_ml: "about how much is in it, mL",
    ...lookValues,
  },
  run({ bench, now }, { bottle: id, fill, topped, more, sure }) {
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const today = dateOf(now, bench.zone);
    if (topped === true) {
      const missing = millilitres(sizeOf(bottle) - contentsOf(bottle));
      if (more !== undefined && more > missing + 0.05 * sizeOf(bottle)) return noRoom(bottle, more);
      if (missing < 1) {
        const full = more === undefined ? [] : ["By my book it was full: nothing is added to it."];
        return shown(bench, now, bottle, seenAs(bottle, "full", today), full);
      }
      if (sure === undefined) return whatOnTop(bottle, missing, more);
      if (!sure) {
        const left = showVolume(contentsOf(bottle));
        return answer({
          title: `Then ${bottle.name} stays at ${left}.`,
          say: `Then ${bottle.name} stays at ${left}.`,
        });
      }
      const [size, put] = [sizeOf(bottle), more ?? missing];
      const contents = millilitres(Math.min(size, contentsOf(bottle) + put));
      const level = bottle.container === "collapsing" ? "full" : levelOf(contents, size);
      const filled = withFill({ ...bottle, contents }, level, today);
      return shown(bench, now, bottle, filled, [
        "Its date and the film it has done stand as before.",
      ]);
    }
    if (fill === undefined) {
      return askFor(
        "fill",
        { bottle: id },
        "fill",
        "How full is it: full, some air, half or less?",
      );
    }
    return shown(bench, now, bottle, seenAs(bottle, fill, today), decanted(bottle, fill, today));
  },
});

/** By the book there is no room for so much. */
const noRoom = (bottle: Bottle, more: Millilitres): Reply =>
  refuse(
    "no-room",
    `By my book ${bottle.name} holds ${showVolume(contentsOf(bottle))} of ${showVolume(sizeOf(bottle))}: no room for ${showVolume(more)} more. Say first how full it stood, like ${bottle.name} is half full.`,
    {
      say: `By my book ${bottle.name} has no room for that.`,
      facts: { bottle: bottle.name },
    },
  );

/** More of the same alone may go on top; anything else makes another bath of it. */
const whatOnTop = (bottle: Bottle, missing: Millilitres, more: Millilitres | undefined): Reply =>
  confirm(
    "fill",
    { bottle: bottle.id, topped: true, more },
    "sure",
    `${bottle.name}: ${showVolume(more ?? missing)} more of the very same ${bottle.bath}, no older and no more used?`,
    {
      lines: [
        "From another bottle of it: say poured 200 ml from that one into this one. Replenisher: say replenish.",
      ],
      say: `${showVolume(more ?? missing)} of the very same ${bottle.bath}?`,
      facts: { bottle: bottle.name },
    },
  );

/** A fuller look with no more in it: it stands in a smaller bottle, and that is said. */
function decanted(bottle: Bottle, fill: FillLevel, today: string): readonly string[] {
  if (sizeOf(seenAs(bottle, fill, today)) >= sizeOf(bottle)) return [];
  return [
    `I keep the ${showVolume(contentsOf(bottle))} by my book and take it for a smaller bottle.`,
    ...(bottle.out === undefined
      ? []
      : [
          `${showVolume(bottle.out)} is out by my book; if it is in again, say back in ${bottle.name}.`,
        ]),
    `Topped up with more of the same? Say undo, then topped up ${bottle.name}.`,
  ];
}

function shown(
  bench: Bench,
  now: Instant,
  before: Bottle,
  filled: Bottle,
  lines: readonly string[],
): Outcome {
  const look = lookNow(bench, filled, now);
  const fill = fillNow(filled);
  const contents = contentsOf(filled);
  const measured = contents === contentsOf(before);
  return withBottle(
    bench,
    filled,
    answer({
      title: `${filled.name}: ${fillWords[fill]}, about ${showVolume(contents)}.`,
      lines: [...lines, ...dueLine(look)],
      say: `${filled.name}: ${fillWords[fill]}.`,
      facts: { bottle: filled.name, fill, state: look.state, governs: look.governs ?? null },
      figures: {
        contents_ml: {
          value: contents,
          origin: measured
            ? { kind: "own log" }
            : { kind: "computed", source: "from how full it stands" },
        },
        ...stateFigures(look),
      },
      working: look.keeping === undefined ? [] : [`Keeps: ${look.keeping.how}`],
    }),
  );
}
