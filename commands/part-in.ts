import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { nothingMixed, walkOn, walkStop } from "../src/commands/walk-words.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { awaitsIn } from "../src/domain/session/hear.ts";
import { dueStep, partIn } from "../src/domain/session/mixing-walk.ts";
import { refuse } from "../src/reply/reply.ts";
import { inCommand } from "./in.ts";

/** Words for the whole bath, never the name of a part. */
const isNoPart = new Set(["its", "it", "all", "that", "this", "everything", "ok", "and", "now"]);

export const partInCommand = defineCommand({
  name: "part in",
  summary: "While mixing: this part, or the water, is in.",
  topic: "mix",
  sentences: [
    "part {part} [is|went] in",
    "{part} (in|is in|went in)",
    "{solution} [part] {part} [is|went] in",
    "part {part} [of] {solution} [is|went] in",
    "add [part] {part}",
    "(topped up|full|filled|filled up|at the mark|up to the mark|to the mark|top up in|it is full)",
  ],
  slots: { part: "word" },
  examples: ["A in", "full"],
  fields: z.object({ part: z.string().max(30).optional(), solution: z.string().optional() }),
  changes: true,
  values: {
    bath: "bath being mixed",
    named: "the part that was said",
    done: "what is in, in order",
    due: "what comes next: a part, clear, mark, or null when it is mixed",
    other: "the other bath that was named, on a stop",
    total_ml: "volume mixed, mL, at the end",
  },
  run(at, { part, solution }) {
    const { bench, now } = at;
    const { mixing } = bench;
    if (mixing === undefined) {
      // "full" is said of a tank as well; while one is being poured it is meant.
      const pouring = liveRuns(bench).find((run) => awaitsIn(run, now));
      if (pouring === undefined) return nothingMixed();
      const tank = part === undefined || isNoPart.has(part.toLowerCase());
      return tank ? inCommand.handle(at, {}) : notHeardIn(pouring.tank);
    }
    const named = part ?? "mark";
    const other =
      solution === undefined || solution === mixing.bath || solution === mixing.kind
        ? undefined
        : solution;
    const word = ["top-up", "rest"].includes(named.toLowerCase()) ? "mark" : named;
    // "water in" for the last water as well: it can only mean the one that is due.
    const due = dueStep(mixing);
    const meant = word.toLowerCase() === "water" && due?.kind === "top-up" ? "mark" : word;
    const walked = partIn(mixing, meant, other);
    return walked.ok ? walkOn(bench, walked.mixing, now) : walkStop(mixing, walked.trouble);
  },
});

/** Some other word with "in", said while a tank is being filled. */
const notHeardIn = (tank: string) =>
  refuse("not-in", `${tank} waits for its bath. Say in when the tank is full.`, {
    say: `${tank} waits. Say in when it is full.`,
  });

/** Water has a name of its own: the word is heard for the first water and for the last. */
export const waterInCommand = defineCommand({
  name: "water in",
  summary: "While mixing: the water that is due is in.",
  topic: "mix",
  sentences: ["[the] [start] (water|waters) [is|went] in"],
  examples: ["water in"],
  fields: z.object({}),
  changes: true,
  values: partInCommand.values,
  run: (at) => partInCommand.handle(at, { part: "water" }),
});
