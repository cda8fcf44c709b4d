import { z } from "zod";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { agitationCaution, withChosenTimes } from "../src/commands/chosen-times.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import {
  correctionFigures,
  correctionLines,
  developing,
  developingValues,
} from "../src/commands/developing.ts";
import { worked as derived, of } from "../src/commands/figures.ts";
import { figuresFor, ownLine } from "../src/commands/own-figures.ts";
import { publishedTimes } from "../src/commands/published-times.ts";
import { aboutSheet, bathOn, sheetFor } from "../src/commands/sheets.ts";
import { bottleFor } from "../src/commands/start-bottle.ts";
import { timeAtReply } from "../src/commands/time-at.ts";
import { type Bottle, roleOf } from "../src/domain/chemistry/bottle.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { DRAIN } from "../src/domain/process/plan-stages.ts";
import { type Bath, isDeveloper, type Sheet } from "../src/domain/process/sheet.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { celsius, type Instant } from "../src/domain/units/quantity.ts";
import {
  plain,
  sayDuration,
  showDuration,
  showTemperature,
  showUnits,
} from "../src/domain/units/show.ts";
import { answer, type Reply, refuse, type Shown } from "../src/reply/reply.ts";

export const howLongCommand = defineCommand({
  name: "how long",
  summary: "Time and temperature of a bath, from the sheet.",
  topic: "sheet",
  sentences: [
    "(how long is|how long for|how long in|how long does|time for|time of|how long should i do|what is the time for) [the] {solution} [take|bath|last] [(by|on|from) [the] {sheet} [sheet]]",
    "(how long is|how long for|how long in|how long does|time for|time of|what is the time for) [the] {solution} [take|bath|last] (from|in|with|out of) {bottle}",
    "(how long is|how long for|how long in|how long does|time for|time of|what is the time for) [the] {solution} [take|bath|last] (from|in|with|out of) {bottle} at {temperature}",
    "(how long is|how long for|how long in|how long does|time for|time of|what is the time for) [the] {solution} [take|bath|last] at {temperature} (from|in|with|out of) {bottle}",
    "(how long|time|how long is it|how long must it be) at {temperature} (from|with|out of) {bottle}",
    "how long (should|do|must|to) [i|we|film|it] (develop|{solution}|stay in {solution}|be in {solution}) [for] [(at|in) {temperature}] [(by|on|from) [the] {sheet} [sheet]]",
    "how long (should|must|will) [the] {solution} (be|take|last) [(at|in) {temperature}]",
    "[how long] {solution} time [(at|for|in) {temperature}]",
    "{solution} at {temperature} how long",
    "(what temperature|what temp|how warm|how hot|which temperature) [is|should|must|for|does] [the] [{solution}] [be|need|have]",
    "(how long|time|how long is it|how long must it be) at {temperature} [(for|in) [the] {solution}] [(by|on|from) [the] {sheet} [sheet]]",
    "(how long is|how long for|how long in|how long does|time for|time of|what is the time for) [the] {solution} [take|bath|last] at {temperature} [(by|on|from) [the] {sheet} [sheet]]",
    "temperature (of|for) [the] {solution}",
    "[what is] [the] (time and temperature|figures) (for|of) [the] {solution}",
  ],
  examples: [
    "how long is the blix",
    "how long at 36 degrees",
    "how long is the developer from Acorn",
    "what temperature should the developer be",
  ],
  fields: z.object({
    solution: z.string().default("developer"),
    sheet: z.string().optional(),
    temperature: z
      .number()
      .min(0, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
      .max(60, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
      .optional(),
    bottle: z.string().optional(),
  }),
  changes: false,
  values: {
    sheet: "the sheet it stands on",
    bath: "bath",
    time_s: "time, s",
    sense: "exact or at least",
    pour_out_s: "pouring out begins here, s",
    temp_c: "temperature, °C",
    factor: "how many times longer a cold bath takes, where its own time is not known",
    tolerance_c: "half width of the band, °C",
    bottle: "the developer bottle whose film was counted in; missing when there was none",
    ...developingValues,
  },
  run({ bench, now }, { solution, sheet: named, bottle: said, temperature: at }) {
    const found = sheetFor(bench, "process", named);
    if (found === undefined)
      return refuse("no-such-sheet", "I have no sheet of that name. Say sheets.");
    const { chosen } = found;
    const { sheet, table } = withChosenTimes(bench, found.sheet);
    const on = bathOn(sheet, solution);
    const meant = on === undefined ? undefined : "bath" in on ? on.bath : on.several[0];
    const poured =
      meant === undefined ? undefined : pouredFrom(bench, now, sheet, meant, named, said);
    if (poured !== undefined && "reply" in poured) return poured.reply;
    const look = poured?.bottle === undefined ? undefined : lookNow(bench, poured.bottle, now);
    const whose = meant === undefined ? undefined : figuresFor(sheet, meant, look);
    if (whose === undefined || (whose.bath.time === undefined && at === undefined)) {
      return refuse(
        "no-figures",
        `The ${sheet.name} sheet has no time for ${solution}. Teach me yours: learn a sheet.`,
        {
          lines: meant === undefined ? [] : publishedTimes(sheet, meant),
          say: `No time for ${solution}. Say learn a sheet.`,
          facts: { sheet: sheet.name },
        },
      );
    }
    const { bath, sheet: by, own } = whose;
    const cautions = [
      ...aboutSheet(by, own || chosen, false),
      ...(table === undefined || own || !isDeveloper(bath.kind) ? [] : agitationCaution(table)),
      ...(bath.time !== undefined && isWeak(bath.time.origin) && !by.invented
        ? ["From memory: check your sheet."]
        : []),
    ];
    const stands = [
      ...(look === undefined
        ? (poured?.several ?? [])
        : [`As ${look.bottle.name} stands, ${showUnits(look.bottle.used)} done.`]),
      ...(own && look !== undefined ? [ownLine(whose, look)] : []),
    ];
    if (at !== undefined) return timeAtReply(by, bath, celsius(at), look, stands, cautions);
    const { temperature, tolerance, sense } = bath;
    // Only a developer's time follows what its bottle has done.
    const worked =
      look === undefined
        ? undefined
        : developing("how long", {}, by, bath, look, undefined, undefined);
    if (worked !== undefined && "reply" in worked) return worked.reply;
    const timed = worked?.found;
    const time = timed?.time ?? bath.time;
    if (time === undefined) throw new Error("a bath without a time was refused before");
    const drain = bath.drain ?? DRAIN;
    const word = sense === "exact" ? "exactly" : "at least";
    const warm = temperature === undefined ? "" : ` at ${showTemperature(temperature.value)}`;
    const band = tolerance === undefined ? "" : `, ±${plain(tolerance.value, 2)} °C`;
    const figures: Record<string, Shown> = {
      time_s: of(time.value, time.origin),
      ...(timed === undefined ? {} : correctionFigures(timed)),
      pour_out_s: derived(time.value - drain.value, "time less the drain, which lies inside it"),
    };
    if (temperature !== undefined) figures.temp_c = of(temperature.value, temperature.origin);
    if (tolerance !== undefined) figures.tolerance_c = of(tolerance.value, tolerance.origin);
    return answer({
      title: `${bath.name}: ${word} ${showDuration(time.value)}${warm}${band}`,
      lines: [
        `From the ${by.name} sheet; time ${showOrigin(time.origin)}.`,
        ...(timed === undefined ? [] : correctionLines(timed)),
        ...(timed?.beyondTable === true
          ? ["Its re-use table ends before this: the last row was taken. Mix fresh."]
          : []),
        ...stands,
      ],
      say: `${bath.name}: ${word} ${sayDuration(time.value)}${temperature === undefined ? "" : ` at ${plain(celsius(temperature.value), 1)}`}.`,
      figures,
      facts: {
        sheet: by.name,
        bath: bath.name,
        sense,
        ...(look === undefined ? {} : { bottle: look.bottle.name }),
      },
      cautions,
      working: [
        `Time ${showDuration(time.value)}: ${showOrigin(time.origin)}.`,
        ...(timed?.corrections ?? []).map(({ kind, how }) => `${kind}: ${how}`),
        ...(temperature === undefined
          ? []
          : [
              `Temperature ${showTemperature(temperature.value)}: ${showOrigin(temperature.origin)}.`,
            ]),
        `Pouring out begins ${showDuration(drain.value)} before the end: ${showOrigin(drain.origin)}.`,
      ],
    });
  },
});

/**
 * The bottle a developer's time is asked for: the named one, or the only one there is. A sheet that
 * was named is asked for its own time.
 */
function pouredFrom(
  bench: Bench,
  now: Instant,
  sheet: Sheet,
  bath: Bath,
  named: string | undefined,
  said: string | undefined,
): { readonly bottle?: Bottle; readonly several?: readonly string[] } | { readonly reply: Reply } {
  if (!isDeveloper(bath.kind) || (named !== undefined && said === undefined)) return {};
  const chosen = bottleFor(bench, sheet, bath, said, now);
  if ("wrong" in chosen) return { reply: chosen.wrong };
  const working = ("several" in chosen ? chosen.several : [chosen.bottle]).filter(
    (one) => one !== undefined && roleOf(one) === "working",
  );
  const [only] = working;
  if (only === undefined) return {};
  if (working.length === 1) return { bottle: only };
  const tired = working.some((one) => one !== undefined && one.used > 0);
  return tired
    ? {
        several: [
          `A used bottle takes longer: say how long is the ${bath.name} from ${only.name}.`,
        ],
      }
    : {};
}
