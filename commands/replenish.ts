import { z } from "zod";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { withBottle } from "../src/commands/bottle-meant.ts";
import { bottleOfBath } from "../src/commands/bottle-of-bath.ts";
import { askFor, confirm, defineCommand } from "../src/commands/define-command.ts";
import { filmLoad, settleFilm } from "../src/commands/film-load.ts";
import { contentsOf, workDone } from "../src/domain/chemistry/bottle.ts";
import {
  afterStandstill,
  removeFirst,
  replenisherFor,
  STANDSTILL,
} from "../src/domain/chemistry/replenish.ts";
import { filmUnits, showFilm } from "../src/domain/film/load.ts";
import { showOrigin } from "../src/domain/origin.ts";
import { isDeveloper } from "../src/domain/process/sheet.ts";
import { millilitres, units } from "../src/domain/units/quantity.ts";
import { plain, showUnits, showVolume } from "../src/domain/units/show.ts";
import { answer, refuse, type Shown } from "../src/reply/reply.ts";

export const replenishCommand = defineCommand({
  name: "replenish",
  summary: "How much replenisher a bottle needs for its film, and how much must go out first.",
  topic: "bottle",
  sentences: [
    "[i want to|let us] (replenish|top off|top up) ({bottle}|{solution}) <[for|after] {film} / [with] {carried} carried [out|over] / after [standing] {stood} days>",
    "how much replenisher [for|does] ({bottle}|{solution}) [need] <[for|after] {film} / [with] {carried} carried [out|over]>",
    "(replenish|top off)",
  ],
  slots: { carried: "volume", stood: "count", done: "yes" },
  examples: [
    "replenish Acorn for two rolls",
    "replenish Acorn for two rolls with 20 ml carried out",
  ],
  fields: z.object({
    bottle: z.string().optional(),
    solution: z.string().optional(),
    film: filmLoad(200, "More than 200 rolls is no evening. Give the film it did.").optional(),
    carried: z
      .number()
      .min(0, "What was carried out cannot be below zero.")
      .transform(millilitres)
      .optional(),
    stood: z.number().min(0, "Days it stood cannot be below zero.").optional(),
    done: z.boolean().optional(),
  }),
  changes: true,
  values: {
    bottle: "its name",
    units: "film that is made good, units of 80 sq in",
    replenish_ml: "replenisher to put in, mL",
    standstill_ml: "of that, for the days it stood, mL",
    carried_ml: "carried out by the film, mL",
    remove_ml: "to be taken out first, mL",
  },
  run({ bench, now }, wanted) {
    const meant = bottleOfBath(bench, wanted, "replenish", "Which bottle?");
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const look = lookNow(bench, bottle, now);
    const rate = look.bath?.replenish;
    if (rate === undefined) {
      return refuse(
        "no-rate",
        `No sheet says how much replenisher ${bottle.name} takes. Teach it as the re-use rule: 20 ml of replenisher per roll.`,
        { say: "No sheet gives a replenishing rate.", facts: { bottle: bottle.name } },
      );
    }
    const settled = wanted.film === undefined ? undefined : settleFilm(wanted.film);
    if (settled !== undefined && "ask" in settled) {
      return askFor("replenish", wanted, "film", settled.ask, settled.options);
    }
    const load = settled === undefined ? workDone(bottle) : filmUnits(settled.film);
    const forFilm = replenisherFor(load, rate.value);
    const stood =
      wanted.stood === undefined || !isDeveloper(bottle.bath)
        ? millilitres(0)
        : afterStandstill(contentsOf(bottle), wanted.stood);
    const total = millilitres(forFilm + stood);
    if (total <= 0) {
      return refuse(
        "nothing-to-replenish",
        `${bottle.name} has no film to make good. Say replenish ${bottle.name} for two rolls.`,
        { say: "There is no film to make good." },
      );
    }
    const carried = wanted.carried ?? millilitres(0);
    const remove = removeFirst(total, carried);
    if (wanted.done === false) {
      return answer({ title: "Then nothing is noted.", say: "Then nothing is noted." });
    }
    const figures: Record<string, Shown> = {
      units: { value: load, origin: { kind: "own log" } },
      replenish_ml: { value: total, origin: rate.origin },
      ...(stood > 0
        ? {
            standstill_ml: {
              value: stood,
              origin: { kind: "published", source: "SS0514, p. 2-15, para. c (read)" },
            },
          }
        : {}),
      carried_ml: { value: carried, origin: { kind: "told" } },
      remove_ml: {
        value: remove,
        origin: { kind: "published", source: "SS0520, topping off, para. (2) (read)" },
      },
    };
    const working = [
      `${plain(load, 2)} units × ${plain(rate.value, 1)} mL per unit = ${showVolume(forFilm)}; ${showOrigin(rate.origin)}`,
      ...(stood > 0
        ? [
            `Standing: ${STANDSTILL.share * 100} % for each ${STANDSTILL.days} days of ${showVolume(contentsOf(bottle))} = ${showVolume(stood)}; SS0514, p. 2-15 (read)`,
          ]
        : []),
      `Out first: replenisher less what was carried out; SS0520, para. (2) (read)`,
    ];
    if (wanted.done === undefined) {
      return confirm(
        "replenish",
        wanted,
        "done",
        `${bottle.name}: take ${showVolume(remove)} out, then put ${showVolume(total)} of replenisher in. Done?`,
        {
          lines: [
            settled === undefined
              ? `For the ${showUnits(load)} it has done.`
              : `For ${showFilm(settled.film)}, ${showUnits(load)}.`,
            ...(carried > 0 ? [`The film carried ${showVolume(carried)} out already.`] : []),
            "It keeps a working bath level; it does not revive an exhausted one.",
          ],
          say: `${showVolume(remove)} out, then ${showVolume(total)} in. Done?`,
          figures,
          facts: { bottle: bottle.name },
          working,
        },
      );
    }
    const made = units(Math.min(bottle.used, (bottle.replenished ?? 0) + load));
    return withBottle(
      bench,
      { ...bottle, replenished: made },
      answer({
        title: `${bottle.name}: ${showVolume(total)} of replenisher for ${showUnits(load)} is noted.`,
        say: `${bottle.name} is replenished.`,
        figures,
        facts: { bottle: bottle.name },
        working,
      }),
    );
  },
});
