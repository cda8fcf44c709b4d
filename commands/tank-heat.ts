import { z } from "zod";
import { volumeField } from "../src/commands/amounts.ts";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { worked } from "../src/commands/figures.ts";
import { heatField, oneScale } from "../src/commands/heats.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { explainHeat, learnTank } from "../src/domain/temperature/tank-heat.ts";
import { type Instant, type Millilitres, millilitres } from "../src/domain/units/quantity.ts";
import { plain, showVolume } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

/** A tank of this bench takes no more, mL of water: our own bound. */
const MOST_TAKES = 5000;

const named = "in tank {tank} / [with|of] {volume} [of developer]";
const heat = z.object({ degrees: z.number(), scale: z.enum(["C", "F"]).optional() }).optional();

export const tankHeatCommand = defineCommand({
  name: "tank heat",
  summary: "Learn the heat a tank takes from a reading before and after a pour.",
  topic: "run",
  sentences: [
    `[the] developer was {before} before [the pour|pouring] [and] {after} after [[the] pour|pouring] <[and] [the] tank was [at] {vessel} / ${named}>`,
    `[learn] tank {tank} developer [was] {before} before [and] {after} after [and] [the] tank was [at] {vessel} [with|of] [{volume}]`,
    "[the] tank {tank} takes [as much] [heat] [as|like] {takes} of water",
    "(learn|measure) [the] heat of [the] tank [{tank}]",
    "(learn|measure) tank heat [of] [tank] [{tank}]",
  ],
  slots: { before: "heat", after: "heat", vessel: "heat", tank: "newTank", takes: "volume" },
  examples: [
    "developer was 38.6 before and 37.3 after the pour, tank was 21, 500 ml",
    "tank north takes as much as 50 ml of water",
  ],
  fields: z.object({
    takes: z.number().optional(),
    before: heat,
    after: heat,
    vessel: heat,
    volume: z.number().optional(),
    tank: z.string().max(30, "Give the tank a name of one or two words.").optional(),
  }),
  changes: true,
  values: {
    tank: "its name",
    takes_ml: "heat it takes, mL of water",
  },
  run({ bench, now }, wanted) {
    const { before, after, vessel } = wanted;
    const tank = wanted.tank ?? onlyTank(bench);
    if (tank === undefined) {
      return askFor("tank heat", wanted, "tank", "Which tank? Say its name.");
    }
    if (wanted.takes !== undefined)
      return kept(bench, now, tank, millilitres(wanted.takes), "told");
    const asked = { ...wanted, tank };
    if (before === undefined) {
      return askFor("tank heat", asked, "before", "What was the developer before the pour?");
    }
    if (after === undefined) {
      return askFor("tank heat", asked, "after", "And in the tank, a minute after the pour?");
    }
    if (vessel === undefined) {
      return askFor("tank heat", asked, "vessel", "How warm was the empty tank?");
    }
    if (wanted.volume === undefined) {
      return askFor("tank heat", asked, "volume", "How much developer went in, with its unit?");
    }
    const read = heatField("").parse(before);
    const scaled = oneScale(read, [after, vessel], bench.degrees);
    if ("reply" in scaled) return scaled.reply;
    const volume = volumeField("").safeParse(wanted.volume);
    if (!volume.success) {
      return declined(
        { kind: "no-volume" },
        explainHeat({ kind: "no-volume", volume: wanted.volume }),
      );
    }
    const learnt = learnTank(volume.data, scaled.of(before), scaled.of(after), scaled.of(vessel));
    if (!learnt.ok) return declined(learnt.error, explainHeat(learnt.error));
    return kept(bench, now, tank, learnt.value, "learnt");
  },
});

function kept(bench: Bench, at: Instant, tank: string, takes: Millilitres, how: "told" | "learnt") {
  if (!(takes > 0 && takes <= MOST_TAKES)) {
    return declined(
      { kind: "tank-takes-nothing" },
      explainHeat({ kind: "tank-takes-nothing", takes }),
    );
  }
  const name = tank.charAt(0).toUpperCase() + tank.slice(1);
  const size = takes < 10 ? `${plain(takes, 1)} mL` : showVolume(takes);
  return {
    bench: {
      ...bench,
      tankHeat: { ...bench.tankHeat, [tank.toLowerCase()]: { takes, at } },
    },
    reply: answer({
      title: `Tank ${name} takes as much heat as ${size} of water. I count with it from now on.`,
      say: `Noted. ${name} takes ${size} of water.`,
      lines: ["Say tank drop with the developer, the tank and the volume for where it lands."],
      facts: { tank: name },
      figures: {
        takes_ml:
          how === "told"
            ? { value: takes, origin: { kind: "told" } }
            : worked(takes, "volume times what the developer lost, by what the tank gained"),
      },
    }),
  };
}

/** The tank that can only be meant: of the one run that is open, or the bench's only one. */
function onlyTank(bench: Bench): string | undefined {
  const live = liveRuns(bench);
  const tanks = Object.values(bench.tanks);
  if (live.length === 1) return live[0]?.tank;
  return live.length === 0 && tanks.length === 1 ? tanks[0]?.name : undefined;
}
