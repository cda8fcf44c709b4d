import { z } from "zod";
import { declined } from "../src/commands/declined.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { heatField, oneScale } from "../src/commands/heats.ts";
import { bathOn, sheetFor } from "../src/commands/sheets.ts";
import { showOrigin } from "../src/domain/origin.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import {
  explainNewton,
  learnCooling,
  whenInside,
  whenReaches,
} from "../src/domain/temperature/newton.ts";
import { clockMinute, isoInstant } from "../src/domain/timing/clock-text.ts";
import { celsiusDifference, later, seconds, secondsBetween } from "../src/domain/units/quantity.ts";
import { plain, sayDuration, showCelsius, showDuration } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const target =
  "[when (is|will) it [be] [at] {target} [[within] {within}]|when does it reach {target} [[within] {within}]|until {target}|target {target} [[within] {within}]]";

export const forecastCommand = defineCommand({
  name: "forecast",
  summary: "When a bath left alone reaches a temperature, and how long it stays.",
  topic: "arithmetic",
  sentences: [
    `[the] bath [is|reads] [now] [at] {bath} <{ago} ago [it was] {before} / [and] [the] room [is] [at] {room}> ${target}`,
    `[the] bath [is|reads] [now] [at] {bath} [it] was {before} {ago} ago [and] [the] room [is] [at] {room} ${target}`,
    `(when (does|will) [the] [water] bath (reach|be at|be) {target}|how long until [the] [water] bath (is|is at|reaches) {target}) [it] [was] [at] {before} {ago} ago [and] [it] [is] [now] [at] {bath} [now] [and] [the] room [is] [at] {room}`,
    `[the] [water] bath was [at] {before} {ago} ago [and] [it] [is] [now] [at] {bath} [now] [and] [the] room [is] [at] {room} [and] ${target}`,
    "(forecast|when is the bath ready|when will the bath be ready)",
  ],
  needs: ["ago", "forecast", "ready"],
  slots: {
    bath: "heat",
    before: "heat",
    room: "heat",
    target: "heat",
    within: "difference",
    ago: "duration",
  },
  examples: ["bath 46, ten minutes ago 48, room 20: when is it 38"],
  fields: z.object({
    bath: heatField("What does the bath read now?"),
    ago: z
      .number("How long ago was the reading before?")
      .min(10, "Two readings some minutes apart, please. How long ago was the first?")
      .max(86_400, "Within a day, please. How long ago was the first reading?"),
    before: heatField("What did it read then?"),
    room: heatField("How warm is the room?"),
    target: heatField("Which temperature do you wait for?"),
    /** Half width of the band about it, °C; missing: the developer's on the sheet in use. */
    within: z
      .number()
      .min(0.05, "No bath is held closer than 0.05 °C. Give a wider band.")
      .max(20, "That is no band any more. Give 20 °C at most.")
      .optional(),
  }),
  changes: false,
  values: {
    at: "ISO instant at which it is there",
    wait_s: "until then, s",
    lasts_s: "how long it stays inside the band, s; missing when it stays",
    from: "ISO instant at which it comes into the band",
    per_min: "share of the difference to the room that goes each minute",
    target_c: "temperature waited for, °C",
    tolerance_c: "half width of the band, °C",
  },
  run({ bench, now }, wanted) {
    const { bath, before, room, ago } = wanted;
    const scaled = oneScale(wanted.target, [bath, before, room], bench.degrees);
    if ("reply" in scaled) return scaled.reply;
    const cooling = learnCooling(
      { at: later(now, -ago), temperature: scaled.of(before) },
      { at: now, temperature: scaled.of(bath) },
      scaled.of(room),
    );
    if (!cooling.ok) return declined(cooling.error, explainNewton(cooling.error));
    const aim = scaled.of(wanted.target);
    const reached = whenReaches(cooling.value, aim);
    if (!reached.ok) return declined(reached.error, explainNewton(reached.error));
    const band =
      wanted.within === undefined
        ? toleranceOf(bench)
        : { value: celsiusDifference(wanted.within), origin: { kind: "told" } as const };
    const inside = whenInside(cooling.value, aim, band.value);
    const wait = secondsBetween(now, reached.value);
    const clock = clockMinute(reached.value, bench.zone);
    const stays =
      inside.ok && inside.value.lasts !== undefined
        ? `It stays within ±${plain(band.value, 2)} °C for ${showDuration(inside.value.lasts)}.`
        : `It stays within ±${plain(band.value, 2)} °C.`;
    return answer({
      title: `At ${showCelsius(aim)} in ${showDuration(wait)}, at ${clock}.`,
      say: `At ${showCelsius(aim)} in ${sayDuration(wait)}.`,
      lines: [
        stays,
        "Left alone, by Newton's law; a heater, a lid or stirring changes it. Measure again.",
        ...(scaled.assumed === undefined ? [] : [scaled.assumed]),
      ],
      working: [
        `Newton: the difference to the room went from ${plain(scaled.of(before) - scaled.of(room), 2)} to ${plain(scaled.of(bath) - scaled.of(room), 2)} °C in ${showDuration(seconds(ago))}, ${plain(100 * cooling.value.perMinute, 2)} % a minute of what is left.`,
        `It is ${plain(aim - scaled.of(room), 2)} °C after ln(${plain(scaled.of(bath) - scaled.of(room), 2)} / ${plain(aim - scaled.of(room), 2)}) / ${plain(cooling.value.perMinute, 5)} = ${plain(wait / 60, 2)} minutes.`,
        `Band ±${plain(band.value, 2)} °C; ${showOrigin(band.origin)}.`,
      ],
      figures: {
        at: worked(
          isoInstant(reached.value),
          "the difference to the room falls evenly by its share",
        ),
        wait_s: worked(wait, "logarithm of the differences to the room, by the rate"),
        per_min: worked(
          cooling.value.perMinute,
          "logarithm of both readings' differences, by minutes",
        ),
        target_c: said(aim),
        tolerance_c: band,
        ...(inside.ok
          ? {
              from: worked(isoInstant(inside.value.from), "when it comes into the band"),
              ...(inside.value.lasts === undefined
                ? {}
                : {
                    lasts_s: worked(inside.value.lasts, "from coming into the band to leaving it"),
                  }),
            }
          : {}),
      },
    });
  },
});

/** The band of the developer of the sheet in use, or a common one. */
function toleranceOf(bench: Bench) {
  const sheet = sheetFor(bench, "process")?.sheet;
  const on = sheet === undefined ? undefined : bathOn(sheet, "developer");
  const bath = on === undefined ? undefined : "bath" in on ? on.bath : on.several[0];
  return (
    bath?.tolerance ?? {
      value: celsiusDifference(0.15),
      origin: { kind: "common practice" } as const,
    }
  );
}
