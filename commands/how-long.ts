import { z } from "zod";
import { agitationCaution, withChosenTimes } from "../src/commands/chosen-times.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { of, worked } from "../src/commands/figures.ts";
import { aboutSheet, bathOn, sheetFor } from "../src/commands/sheets.ts";
import { timeAtReply } from "../src/commands/time-at.ts";
import { isWeak, showOrigin } from "../src/domain/origin.ts";
import { DRAIN } from "../src/domain/process/plan-stages.ts";
import { isDeveloper } from "../src/domain/process/sheet.ts";
import { celsius } from "../src/domain/units/quantity.ts";
import { plain, sayDuration, showDuration, showTemperature } from "../src/domain/units/show.ts";
import { answer, refuse, type Shown } from "../src/reply/reply.ts";

export const howLongCommand = defineCommand({
  name: "how long",
  summary: "Time and temperature of a bath, from the sheet.",
  topic: "sheet",
  sentences: [
    "(how long is|how long for|how long in|how long does|time for|time of|how long should i do|what is the time for) [the] {solution} [take|bath|last] [(by|on|from) [the] {sheet} [sheet]]",
    "how long (should|do|must) (i|we|film|it) (develop|stay in {solution}|be in {solution}|bleach|fix|blix) [for]",
    "(what temperature|what temp|how warm|how hot|which temperature) [is|should|must|for|does] [the] [{solution}] [be|need|have]",
    "(how long|time|how long is it|how long must it be) at {temperature} [(for|in) [the] {solution}] [(by|on|from) [the] {sheet} [sheet]]",
    "(how long is|how long for|how long in|how long does|time for|time of|what is the time for) [the] {solution} [take|bath|last] at {temperature} [(by|on|from) [the] {sheet} [sheet]]",
    "temperature (of|for) [the] {solution}",
    "[what is] [the] (time and temperature|figures) (for|of) [the] {solution}",
  ],
  examples: [
    "how long is the blix",
    "how long at 36 degrees",
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
    estimate_from_s: "shorter end of an estimate, s; missing unless it is one",
    estimate_to_s: "its longer end, s",
    tolerance_c: "half width of the band, °C",
  },
  run({ bench }, { solution, sheet: named, temperature: at }) {
    const found = sheetFor(bench, "process", named);
    if (found === undefined)
      return refuse("no-such-sheet", "I have no sheet of that name. Say sheets.");
    const { chosen } = found;
    const { sheet, table } = withChosenTimes(bench, found.sheet);
    const on = bathOn(sheet, solution);
    const bath = on === undefined ? undefined : "bath" in on ? on.bath : on.several[0];
    if (bath?.time === undefined && !(bath !== undefined && at !== undefined)) {
      return refuse(
        "no-figures",
        `The ${sheet.name} sheet has no time for ${solution}. Teach me yours: learn a sheet.`,
        {
          say: `No time for ${solution}. Say learn a sheet.`,
          facts: { sheet: sheet.name },
        },
      );
    }
    const measured = table === undefined || !isDeveloper(bath.kind) ? [] : agitationCaution(table);
    if (at !== undefined) {
      const about = [...aboutSheet(sheet, chosen, false), ...measured];
      return timeAtReply(sheet, bath, celsius(at), about);
    }
    const { time, temperature, tolerance, sense } = bath;
    if (time === undefined) throw new Error("a bath without a time was refused before");
    const drain = bath.drain ?? DRAIN;
    const word = sense === "exact" ? "exactly" : "at least";
    const warm = temperature === undefined ? "" : ` at ${showTemperature(temperature.value)}`;
    const band = tolerance === undefined ? "" : `, ±${plain(tolerance.value, 2)} °C`;
    const figures: Record<string, Shown> = {
      time_s: of(time.value, time.origin),
      pour_out_s: worked(time.value - drain.value, "time less the drain, which lies inside it"),
    };
    if (temperature !== undefined) figures.temp_c = of(temperature.value, temperature.origin);
    if (tolerance !== undefined) figures.tolerance_c = of(tolerance.value, tolerance.origin);
    return answer({
      title: `${bath.name}: ${word} ${showDuration(time.value)}${warm}${band}`,
      lines: [`From the ${sheet.name} sheet; time ${showOrigin(time.origin)}.`],
      say: `${bath.name}: ${word} ${sayDuration(time.value)}${temperature === undefined ? "" : ` at ${plain(celsius(temperature.value), 1)}`}.`,
      figures,
      facts: { sheet: sheet.name, bath: bath.name, sense },
      cautions: [
        ...aboutSheet(sheet, chosen, false),
        ...measured,
        ...(isWeak(time.origin) && !sheet.invented ? ["From memory: check your sheet."] : []),
      ],
      working: [
        `Time ${showDuration(time.value)}: ${showOrigin(time.origin)}.`,
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
