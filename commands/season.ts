import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { seasonAsked } from "../src/commands/season-asked.ts";
import { seasonLines, seasonTitle } from "../src/picture/season-text.ts";
import { answer, type Json, oneBreath } from "../src/reply/reply.ts";

export const seasonCommand = defineCommand({
  name: "season",
  summary: "All runs of a time: rolls by process, bottles, cost per roll, deviations by month.",
  topic: "run",
  sentences: [
    "[show|draw|give] [me|us] [the|this|my|our] season [overview|picture|summary]",
    "[the] season (since|from) {since}",
    "(overview|statistics) [of] [the|this|my|our] [season|year]",
    "how (much|many) (film|rolls) (did|have) (i|we) (do|done|develop|developed) [this (year|season)]",
    "how (much|many) (film|rolls) (did|have) (i|we) (do|done|develop|developed) since {since}",
  ],
  slots: { since: "sinceDate" },
  examples: ["season", "season since 1 september 2026"],
  fields: z.object({ since: z.iso.date("Since which day? Like 1 September 2026.").optional() }),
  changes: false,
  values: {
    from: "ISO date",
    to: "ISO date",
    runs: "how many",
    rolls: "rolls and sheets",
    units: "film in units of 80 sq in",
    processes: "one entry a process: process, runs, rolls, units",
    bottles:
      "one entry a bottle: bottle, bath, units, cost_per_roll and currency (null without a price), retired",
    months: "one entry a month: month (YYYY-MM), runs, known, deviations",
    picture: "PNG file, wide, its name from the data folder on; missing where none was drawn",
    picture_svg: "the same as SVG",
    picture_phone: "PNG file for a phone held upright",
    picture_phone_svg: "the same as SVG",
  },
  run({ bench, now }, { since }) {
    const season = seasonAsked(bench, now, since);
    if ("kind" in season) return season;
    const { from, to } = season;
    const lines = seasonLines(season);
    const title = seasonTitle(season);
    const processes: Json[] = season.processes.map((one) => ({ ...one }));
    const bottles: Json[] = season.bottles.map(({ bottle, bath, units, perRoll, retired }) => ({
      bottle,
      bath,
      units,
      cost_per_roll: perRoll?.amount ?? null,
      currency: perRoll?.currency ?? null,
      retired,
    }));
    const log = { kind: "own log" } as const;
    return answer({
      title,
      lines,
      say: oneBreath(
        season.runs === 0
          ? "No run in this time."
          : `${season.runs} run${season.runs === 1 ? "" : "s"}, ${season.rolls} rolls. The rest is on the screen.`,
      ),
      figures: {
        runs: { value: season.runs, origin: log },
        rolls: { value: season.rolls, origin: log },
        units: { value: season.units, origin: log },
        processes: { value: processes, origin: log },
        bottles: { value: bottles, origin: log },
        months: { value: season.months.map((one) => ({ ...one })), origin: log },
      },
      facts: { from, to },
      ...(season.runs === 0
        ? {}
        : { picture: { kind: "season", name: `season-${to}`, season, words: [title, ...lines] } }),
    });
  },
});
