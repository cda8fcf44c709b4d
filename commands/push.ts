import { z } from "zod";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import {
  correctionFigures,
  correctionLines,
  developing,
  developingValues,
} from "../src/commands/developing.ts";
import { figuresFor, ownLine } from "../src/commands/own-figures.ts";
import { aboutSheet, bathOn, sheetFor } from "../src/commands/sheets.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { showStops } from "../src/domain/process/push-time.ts";
import { isDeveloper } from "../src/domain/process/sheet.ts";
import { sayDuration, showDuration } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const pushCommand = defineCommand({
  name: "push",
  summary:
    "A developer's time for a push or pull, by the sheet's rule and what the bottle has done.",
  topic: "sheet",
  sentences: [
    "how long [is it] [for|at|with] [a] {push} [in [the] {solution}] [(in|from|with) {bottle}]",
    "how long (should|do|must|will) (i|we) develop [for|at|with] [a] {push} [(in|from|with) {bottle}]",
    "[what is] [the] [developer|developing] time [for|at|with] [a] {push} [(in|from|with) {bottle}]",
    "[the] {solution} time (for|at|with) [a] {push} [(in|from|with) {bottle}]",
    "how long [for|in|is] [the] {solution} [for|at|with|if] [a] {push} [(in|from|with) {bottle}]",
    "how long (if|when) (i|we) {push}",
  ],
  slots: { pushRule: "word" },
  examples: ["how long for push two", "developer time for push one from Acorn"],
  fields: z.object({
    push: z.number("How many stops: push one, push two, or pull one?"),
    solution: z.string().optional(),
    bottle: z.string().optional(),
    pushRule: z.string().optional(),
  }),
  changes: false,
  values: {
    sheet: "the sheet it stands on",
    bath: "the developer",
    bottle: "the bottle whose film was counted in, when one was named",
    time_s: "developer time, s",
    ...developingValues,
  },
  run({ bench, now }, wanted) {
    const found = sheetFor(bench, "process");
    if (found === undefined) return refuse("no-such-sheet", "I have no sheet. Say learn a sheet.");
    const { sheet, chosen } = found;
    const on = bathOn(sheet, wanted.solution ?? "developer");
    const bath = on === undefined ? undefined : "bath" in on ? on.bath : on.several[0];
    if (bath === undefined || !isDeveloper(bath.kind)) {
      return refuse(
        "no-developer",
        `Only a developer is pushed, and the ${sheet.name} sheet has none called ${wanted.solution ?? "developer"}. Say how long for push one.`,
        { say: "Only a developer is pushed." },
      );
    }
    const bottle = wanted.bottle === undefined ? undefined : ownValue(bench.bottles, wanted.bottle);
    const look = bottle === undefined ? undefined : lookNow(bench, bottle, now);
    const whose = figuresFor(sheet, bath, look);
    const { push: stops, pushRule } = wanted;
    const time = developing("push", wanted, whose.sheet, whose.bath, look, stops, pushRule);
    if (time === undefined) {
      return askFor(
        "start",
        { solution: bath.name },
        "duration",
        `The ${sheet.name} sheet has no time for ${bath.name}. How long does yours say?`,
      );
    }
    if ("reply" in time) return time.reply;
    const { time: result, base, corrections } = time.found;
    return answer({
      title: `${bath.name}, ${showStops(wanted.push)}: ${showDuration(result.value)}`,
      lines: [
        ...correctionLines(time.found),
        ...(whose.own && look !== undefined ? [ownLine(whose, look)] : []),
        ...(wanted.push > 0
          ? ["A push buys contrast more than speed; the shadows gain little."]
          : wanted.push < 0
            ? ["A pull is seldom needed."]
            : []),
      ],
      say: `${bath.name}, ${showStops(wanted.push)}: ${sayDuration(result.value)}.`,
      figures: {
        time_s: { value: result.value, origin: result.origin },
        ...correctionFigures(time.found),
      },
      facts: {
        sheet: whose.sheet.name,
        bath: bath.name,
        push: wanted.push,
        ...(bottle === undefined ? {} : { bottle: bottle.name }),
      },
      cautions: aboutSheet(whose.sheet, whose.own || chosen, false),
      working: [
        `Sheet time ${showDuration(base.value)}`,
        ...corrections.map(({ kind, how }) => `${kind}: ${how}`),
        "Order: the sheet's time, then re-use, then push; a start at another temperature corrects last.",
      ],
    });
  },
});
