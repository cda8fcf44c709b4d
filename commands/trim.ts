import { z } from "zod";
import { volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { said, worked } from "../src/commands/figures.ts";
import { heatField, oneScale } from "../src/commands/heats.ts";
import { explainTrim, trimBath } from "../src/domain/temperature/trim-bath.ts";
import { celsius, celsiusDifference } from "../src/domain/units/quantity.ts";
import {
  plain,
  showCelsius,
  showTemperature,
  showVolume,
  showVolumeFor,
} from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

const wish = "[and|but] [i] (want|wanted|need|should be|must be) [it] [at|to be] {target}";
const supply = "(with|from|using|and|by|adding) [hot|cold] [water] [of|at] {supply} [water]";

const MOST_BY = "No bath is trimmed by more than 50 °C. Give a smaller difference.";

export const trimCommand = defineCommand({
  name: "trim",
  summary: "Water to add so that a bath of water reaches its temperature.",
  topic: "arithmetic",
  sentences: [
    `[trim|the|a] [water|tempering] [bath] [of] [a] {total} (is at|at|is|reads) {now} ${wish} [${supply}]`,
    `trim [a] [water] [bath] [of] {total} [from] {now} to {target} [${supply}]`,
    `(trim|cool|warm|raise|lower|bring) [the] [water] bath from {now} to {target} <[of] {total} / (with|using|and|by|adding|hot|cold) [hot|cold] [water] [of|at] {supply} [water]>`,
    `trim [the] [water] bath by {by} <[of] {total} / [it] (is|is at|reads|at) {now} / ${supply}>`,
    `(warm|raise) [the] [water] bath by {by} <[of] {total} / [it] (is|is at|reads|at) {now} / ${supply}>`,
    `(cool|lower) [the] [water] bath by {cooler} <[of] {total} / [it] (is|is at|reads|at) {now} / ${supply}>`,
    "(trim|trim water|trim [the] [water] bath)",
  ],
  slots: {
    total: "volume",
    now: "heat",
    target: "heat",
    supply: "heat",
    by: "difference",
    cooler: "difference",
  },
  examples: [
    "bath 1 litre is at 37.2 want 38 with 60 water",
    "trim 1 litre from 37.2 to 38 with 60",
    "trim the bath by half a degree C",
  ],
  fields: z.object({
    total: volumeField("How much is in the bath, with its unit?"),
    now: heatField("What does it read now?"),
    target: z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }).optional(),
    /** A difference, °C: warmer or colder as the added water is. */
    by: z.number().max(50, MOST_BY).min(-50, MOST_BY).optional(),
    cooler: z.number().max(50, MOST_BY).min(-50, MOST_BY).optional(),
    supply: z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }).optional(),
  }),
  changes: false,
  values: {
    add_ml: "water to add, mL",
    total_ml: "what there is afterwards, mL",
    temp_c: "where it should land, °C",
    by_c: "how far it is moved, °C",
    now_c: "what it reads now, °C",
    supply_c: "the water to add, °C",
  },
  run({ bench }, wanted) {
    const difference = wanted.by ?? (wanted.cooler === undefined ? undefined : -wanted.cooler);
    if (wanted.target === undefined && difference === undefined) {
      return askFor("trim", wanted, "target", "What should it read?");
    }
    if (wanted.supply === undefined) {
      return askFor("trim", wanted, "supply", "What temperature has the water you add?");
    }
    const goal = wanted.target ?? wanted.now;
    const scaled = oneScale(goal, [wanted.now, wanted.supply], bench.degrees);
    if ("reply" in scaled) return scaled.reply;
    const [now, supply] = [scaled.of(wanted.now), scaled.of(wanted.supply)];
    // "By half a degree" with cold water at hand is half a degree colder.
    const colder = wanted.by !== undefined && wanted.by > 0 && supply < now;
    const by = difference === undefined ? scaled.of(goal) - now : colder ? -difference : difference;
    const change = celsiusDifference(by);
    const done = trimBath({ volume: wanted.total, temperature: now }, change, supply, supply);
    if (!done.ok) return declined(done.error, explainTrim(done.error));
    const target = celsius(now + by);
    const { add, total } = done.value;
    const seen = scaled.assumed === undefined ? [] : [scaled.assumed];
    return answer({
      title: `${showVolumeFor(wanted.total, bench.country)} from ${showCelsius(now)} to ${showTemperature(target)}`,
      lines: [
        add === 0
          ? "Nothing to add: it is there."
          : `add   ${showVolumeFor(add, bench.country)} of water at ${showTemperature(supply)}`,
        ...seen,
        "Stir, measure and trim.",
      ],
      say:
        add === 0
          ? "Nothing to add. Measure again."
          : `Add ${showVolume(add)} of water at ${showCelsius(supply)}, then measure.`,
      figures: {
        add_ml: worked(
          add,
          "bath's mass times the difference over how far the added water lies beyond",
        ),
        total_ml: worked(total, "bath and added water"),
        temp_c: said(target),
        by_c: worked(change, "target less what it reads"),
        now_c: said(now),
        supply_c: said(supply),
      },
      cautions:
        add === 0 ? [] : ["For plain or tempering water only: in a mixed solution this dilutes."],
      working: [
        `Add: mass of the bath × (${plain(target, 2)} - ${plain(now, 2)}) / (${plain(supply, 2)} - ${plain(target, 2)}), in mL by water's density.`,
        "Vessel and air are not counted: hence measure again.",
        ...seen,
      ],
    });
  },
});
