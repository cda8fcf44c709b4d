import { z } from "zod";
import { volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { heatField, oneScale } from "../src/commands/heats.ts";
import { bathOn, sheetFor } from "../src/commands/sheets.ts";
import { takesOf } from "../src/commands/tank-takes.ts";
import { type Origin, showOrigin } from "../src/domain/origin.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { preHeat } from "../src/domain/temperature/pre-heat.ts";
import { afterPour, developerFor, explainHeat } from "../src/domain/temperature/tank-heat.ts";
import { type Celsius, celsiusDifference } from "../src/domain/units/quantity.ts";
import { plain, showCelsius, showTemperature } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const rest =
  "[with|if|when] [the] tank [is] [at] {vessel} / [with|of] {volume} [of developer] / [in] tank {tank}";
const lands = "(for|to (end|land|arrive|be) [at|on])";

export const pourDropCommand = defineCommand({
  name: "pour drop",
  summary: "What a developer loses in a colder tank, and how warm to make it.",
  topic: "arithmetic",
  sentences: [
    `(tank drop|pour drop|pouring drop|drop on pouring|temperature drop) <[the] developer [is] [at] {developer} / ${rest}>`,
    "[the] developer [is] [at] {developer} [goes|poured] into [a] tank [is] [at] {vessel} <[with|of] {volume} [of developer]>",
    "[how much (will|does) it (cool|drop|lose)] [when|if] [i] (pour|pouring) {volume} [of] [the] [developer] [at] {developer} (into|in) [a|the] tank [that is] [at] {vessel}",
    "[how much (will|does) it (cool|drop|lose)] [when|if] [i] (pour|pouring) [the] developer [at] {developer} (into|in) [a|the] tank [that is] [at] {vessel} <[with|of] {volume} [of developer]>",
    `how (warm|hot) (must|should|does) [the] developer [have to|need to] be ${lands} {aim} <${rest}>`,
    `[if|when|with] [the] tank [is] [at] {vessel} how (warm|hot) (must|should|does) [the] developer [have to|need to] be ${lands} {aim} [[with|of] {volume}]`,
    "how (warm|hot) (must|should|does) [the] developer [have to|need to] be (with|if|when) [the] tank [is] [at] {vessel} <[with|of] {volume} [of developer] / in tank {tank}>",
    "(tank drop|pour drop|pouring drop|pre-heat|preheat)",
  ],
  slots: { developer: "heat", vessel: "heat", aim: "heat", tank: "newTank" },
  examples: [
    "tank drop: developer 38.5, tank 22, 500 ml",
    "how warm must the developer be for 38 with the tank at 22 with 500 ml",
  ],
  fields: z.object({
    /** Where it should land; with it, the developer's own temperature is what is asked. */
    aim: z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }).optional(),
    vessel: heatField("How warm is the empty tank?"),
    volume: volumeField("How much developer goes in, with its unit?"),
    developer: z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }).optional(),
    tank: z.string().max(30).optional(),
  }),
  changes: false,
  values: {
    lands_c:
      "where developer and tank come together, °C; the middle where the tank was not measured",
    lands_from_c: "lower end, °C; missing when the tank was measured",
    lands_to_c: "upper end, °C; missing when the tank was measured",
    drop_c: "what the developer loses, °C; negative where the tank warms it",
    developer_c: "what the developer must have to land on the aim, °C",
    tank_c: "what the tank must have instead, °C",
    aim_c: "where it should land, °C",
    takes_ml: "heat the tank takes, mL of water; the middle where it is assumed",
    known: "true when the tank's own figure was measured",
    inside: "true when it lands inside the sheet's band",
  },
  run({ bench }, wanted) {
    const { vessel, volume, developer, aim } = wanted;
    const scaled = oneScale(
      developer ?? aim ?? vessel,
      [vessel, ...(aim === undefined ? [] : [aim])],
      bench.degrees,
    );
    if ("reply" in scaled) return scaled.reply;
    const sheet = aimOf(bench);
    const target = aim === undefined ? sheet?.aim : scaled.of(aim);
    const takes = takesOf(bench, wanted.tank);
    const tank = (amount: typeof takes.least) => ({
      temperature: scaled.of(vessel),
      takes: amount,
    });
    const seen = scaled.assumed === undefined ? [] : [scaled.assumed];
    const aimed = (value: Celsius) =>
      aim === undefined && sheet !== undefined ? { value, origin: sheet.origin } : said(value);
    const middle = ((takes.least + takes.most) / 2) as typeof takes.least;
    const figures = {
      takes_ml: takes.known
        ? { value: middle, origin: { kind: "own log" } as const }
        : { value: middle, origin: { kind: "common practice" } as const },
    };
    if (developer === undefined) {
      if (target === undefined) {
        return declined(
          { kind: "no-aim" },
          "I need where it should land: how warm must the developer be for 38 with the tank at 22.",
        );
      }
      const [low, high, mid] = [takes.least, takes.most, middle].map((amount) =>
        developerFor(target, volume, tank(amount)),
      );
      if (low?.ok !== true || high?.ok !== true || mid?.ok !== true) {
        const failed = [low, high, mid].find((one) => one?.ok === false);
        if (failed?.ok === false) return declined(failed.error, explainHeat(failed.error));
        throw new Error("three amounts give three answers");
      }
      const range = takes.known
        ? showTemperature(mid.value)
        : `${showCelsius(low.value)} to ${showCelsius(high.value)}`;
      return answer({
        title: `Developer at ${range} lands on ${showCelsius(target)}.`,
        say: `Developer at ${takes.known ? showCelsius(mid.value) : `about ${showCelsius(mid.value)}`}. Then measure.`,
        lines: [takes.line, ...seen, "Heat to the air is not counted: measure in the tank."],
        figures: {
          ...figures,
          developer_c: worked(mid.value, "developer and tank together must land on the aim"),
          aim_c: aimed(target),
        },
        facts: { known: takes.known },
      });
    }
    const poured = { volume, temperature: scaled.of(developer) };
    const advice = preHeat(
      target ?? poured.temperature,
      sheet?.tolerance ?? celsiusDifference(0),
      poured,
      tank(middle),
    );
    if (!advice.ok) return declined(advice.error, explainHeat(advice.error));
    const ends = [takes.least, takes.most].map((amount) => afterPour(poured, tank(amount)));
    const lands = ends
      .flatMap((one) => (one.ok ? [one.value.lands] : []))
      .toSorted((a, b) => a - b);
    const [from = advice.value.lands, to = advice.value.lands] = lands;
    const { drop, developer: needed, tank: warmed, inside } = advice.value;
    return answer({
      title: takes.known
        ? `It lands at ${showTemperature(advice.value.lands)}, ${plain(Math.abs(drop), 1)} °C ${drop >= 0 ? "lower" : "higher"}.`
        : `It lands at ${showCelsius(from)} to ${showCelsius(to)}, estimate.`,
      say: `It lands at ${takes.known ? "" : "about "}${showCelsius(advice.value.lands)}.`,
      lines: [
        takes.line,
        ...(target === undefined || inside
          ? []
          : [
              ...(needed === undefined
                ? []
                : [`To land on ${showCelsius(target)}: developer at ${showCelsius(needed)}`]),
              ...(warmed === undefined ? [] : [`or the tank at ${showCelsius(warmed)}.`]),
            ]),
        ...seen,
        "Heat to the air is not counted: measure in the tank.",
      ],
      figures: {
        ...figures,
        lands_c: worked(advice.value.lands, "volume times temperature of both, by their sum"),
        drop_c: worked(drop, "developer less where it lands"),
        ...(takes.known
          ? {}
          : {
              lands_from_c: worked(from, "the tank takes most of what is assumed"),
              lands_to_c: worked(to, "the tank takes least of what is assumed"),
            }),
        ...(needed === undefined || target === undefined
          ? {}
          : { developer_c: worked(needed, "what lands on the aim"), aim_c: aimed(target) }),
        ...(warmed === undefined || target === undefined
          ? {}
          : { tank_c: worked(warmed, "what lands on the aim") }),
      },
      facts: { known: takes.known, ...(target === undefined ? {} : { inside }) },
      working: [
        takes.line,
        `Heat balance: (${plain(volume, 0)} mL × ${plain(poured.temperature, 2)} + ${plain(middle, 0)} mL × ${plain(scaled.of(vessel), 2)}) / ${plain(volume + middle, 0)} mL = ${plain(advice.value.lands, 2)} °C; the tank counts as so much water.`,
        ...(target === undefined || aim !== undefined || sheet === undefined
          ? []
          : [`Aim ${showCelsius(target)}: ${showOrigin(sheet.origin)}.`]),
      ],
    });
  },
});

/** Where the developer of the sheet in use should be. */
function aimOf(bench: Bench):
  | {
      readonly aim: Celsius;
      readonly origin: Origin;
      readonly tolerance: ReturnType<typeof celsiusDifference>;
    }
  | undefined {
  if (bench.sheetInUse === undefined) return undefined;
  const sheet = sheetFor(bench, "process")?.sheet;
  const on = sheet === undefined ? undefined : bathOn(sheet, "developer");
  const bath = on === undefined ? undefined : "bath" in on ? on.bath : on.several[0];
  if (bath?.temperature === undefined) return undefined;
  return {
    aim: bath.temperature.value,
    origin: bath.temperature.origin,
    tolerance: bath.tolerance?.value ?? celsiusDifference(0.15),
  };
}
