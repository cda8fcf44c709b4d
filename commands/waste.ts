import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { closeRoutes, drainOptions, wasteRoute, withDrain } from "../src/commands/waste-route.ts";
import { localCodes } from "../src/data/disposal.ts";
import { answer } from "../src/reply/reply.ts";

export const wasteCommand = defineCommand({
  name: "waste",
  summary: "Where a used bath may go, once you have told me where your drain goes.",
  topic: "bottle",
  sentences: [
    "[our|my|the] (drain|drains|waste water|plumbing|house) (is|goes to|runs to|goes into|has) [a|the|on] {drain} [tank|system]",
    "(i am|we are|our house is|my house is|the house is) on [a|the] {drain} [tank|system]",
    "(i|we) have [a|the] {drain} [tank|system]",
    "(it|that|everything) [all] (goes|runs|drains|empties) (to|into) [a|the] {drain} [tank|system]",
    "(can|may) (i|we) (pour|tip|put|dump) [old|used] {solution} [down|in|into] [the|a] (drain|sink|toilet)",
    "(is it (safe|ok|alright)|is [old|used] {solution} (safe|ok|alright)) to (pour|tip|put|dump) [old|used] [{solution}] [down|in|into] [the|a] (drain|sink|toilet)",
    "(can|may) [old|used] {solution} go [down|in|into] [the|a] (drain|sink|toilet)",
    "[how (do|should|can) (i|we)] (get rid of|dispose of|throw away|throw out) [the|old|used] {solution}",
    "what (do|should|can) (i|we) do with [old|used] {solution}",
    "where (may|can|do|should) (i|we) (pour|put|get rid of|dispose of|tip|dump) [the|old|used] [{solution}] [away|out]",
    "where (does|may|can) [the|old|used] {solution} go",
    "waste [old|used] {solution}",
    "(disposal|waste|drain) [rules] [(of|for) {solution}]",
  ],
  examples: ["our drain is septic", "where can I pour used blix"],
  fields: z.object({
    drain: z.enum(["sewer", "septic", "unknown"]).optional(),
    solution: z.string().optional(),
  }),
  changes: true,
  values: {
    drain: "sewer, septic or unknown: what was told",
    bath: "the bath asked about",
    route: "where it may go, in a few words",
    source: "where that comes from",
  },
  run({ bench }, { drain, solution }) {
    const settled =
      drain === undefined ? { bench, lines: [] } : closeRoutes(withDrain(bench, drain), drain);
    const kept = settled.bench;
    if (drain !== undefined && solution === undefined) {
      return {
        bench: kept,
        reply: answer({
          title: `Noted: ${drainWords[drain]}.`,
          lines: [...settled.lines, localCodes],
          say: `Noted: ${drainWords[drain]}.`,
          facts: { drain },
        }),
      };
    }
    const known = kept.waste?.drain;
    if (solution === undefined) return askFor("waste", {}, "solution", "Which bath?");
    if (known === undefined) {
      return askFor(
        "waste",
        { solution },
        "drain",
        "Where does your drain go: sewer or septic?",
        drainOptions,
        { lines: [localCodes] },
      );
    }
    const { route, text, source } = wasteRoute(kept, solution, known);
    return {
      bench: kept,
      reply: answer({
        title: `Used ${solution}: ${route}`,
        lines: [text, localCodes, `[${source}]`],
        say:
          `Used ${solution}: ${route}. Local rules outrank me.`.split(" ").length <= 12
            ? `Used ${solution}: ${route}. Local rules outrank me.`
            : `${route}. Local rules outrank me.`,
        facts: { drain: known, bath: solution, route, source },
      }),
    };
  },
});

const drainWords = {
  sewer: "your drain goes to a sewer",
  septic: "your drain goes to a septic system",
  unknown: "where your drain goes is not known",
} as const;
