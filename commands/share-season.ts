import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { seasonAsked } from "../src/commands/season-asked.ts";
import { withoutNames } from "../src/domain/record/season.ts";
import { seasonLines, seasonTitle } from "../src/picture/season-text.ts";
import { answer, type ReplyPicture, refuse } from "../src/reply/reply.ts";

export const shareSeasonCommand = defineCommand({
  name: "share season",
  summary: "Show what the film group would see of a season, and on your yes give it out.",
  topic: "run",
  sentences: [
    "share [the|this|my|our] season [overview|picture] [with [the] group]",
    "share [the|my|our] season (since|from) {since} [with [the] group]",
  ],
  slots: { since: "sinceDate", sure: "yes" },
  examples: ["share season", "share season since 1 september 2026"],
  fields: z.object({
    since: z.iso.date("Since which day? Like 1 September 2026.").optional(),
    sure: z.boolean().optional(),
  }),
  changes: false,
  values: {
    from: "ISO date",
    to: "ISO date",
    picture: "PNG file, wide, its name from the data folder on; missing where none was drawn",
    picture_svg: "the same as SVG",
    picture_phone: "PNG file for a phone held upright",
    picture_phone_svg: "the same as SVG",
  },
  run({ bench, now }, { since, sure }) {
    const whole = seasonAsked(bench, now, since);
    if ("kind" in whole) return whole;
    if (sure === false) {
      return answer({ title: "Nothing was shared.", say: "Nothing was shared." });
    }
    if (whole.runs === 0) {
      return refuse("no-run", "There is no run in this time to share.");
    }
    const season = withoutNames(whole);
    const { from, to } = season;
    const lines = seasonLines(season);
    const title = seasonTitle(season);
    const name = `season-${to}-shared`;
    const picture: ReplyPicture = { kind: "season", name, season, words: [title, ...lines] };
    const facts = { from, to };
    if (sure === true) {
      const say = "Shared. Private things stayed here.";
      return answer({ title, lines, say, facts, picture, shared: true });
    }
    return {
      ...confirm("share season", { since: from }, "sure", `Share this with the group? ${title}`, {
        lines: [...lines, "Left out: names of bottles, people, tanks, rolls, notes."],
        say: "Share the season with the group? Look at it first.",
        facts,
        share: { run: `season-${to}`, title, lines, picture },
      }),
      picture,
    };
  },
});
