import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { benchHolds, holdsWords } from "../src/commands/work-words.ts";
import { clockMinute, dateOf } from "../src/domain/timing/clock-text.ts";
import { answer } from "../src/reply/reply.ts";

export const exportCommand = defineCommand({
  name: "export",
  summary: "Put everything this bench holds into one file, for a backup or another machine.",
  topic: "bench",
  sentences: [
    "(export|back up|backup|save) [everything|all|it all|the bench|this bench|all of it|my data|all my data]",
    "make [a|me a] (backup|back up|export|archive) [of] [everything|all|the bench|this bench]",
  ],
  examples: ["export everything"],
  fields: z.object({}),
  changes: false,
  values: {
    file: "its name from the data folder on",
    bytes: "its size",
    runs: "how many are in it",
    bottles: "the same",
    sheets: "the same",
    rolls: "the same",
    reminders: "the same",
    pictures: "the same",
    missing: "ids of runs that could not be read",
    done: "runs written so far; while it is made",
    of: "runs to write; while it is made",
  },
  run({ bench, now }) {
    const { zone, id } = bench;
    const clock = clockMinute(now, zone).replace(":", "");
    const safe = id.replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "");
    const name = `${safe === "" ? "bench" : safe}-${dateOf(now, zone)}-${clock}.zip`;
    return {
      work: { kind: "export", name },
      reply: answer({
        title: `Exporting ${holdsWords(benchHolds(bench))} to exports/${name}.`,
        say: "I am writing everything into one file.",
      }),
    };
  },
});
