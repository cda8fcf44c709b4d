import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { putOff, standing } from "../src/domain/session/hear.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const modeValues = { mode: "bench, wet or dark" };

export const wetCommand = defineCommand({
  name: "wet",
  summary: "Short answers, one line, for wet hands.",
  topic: "bench",
  sentences: ["(wet|wet mode|short|be short|hands [are] wet|gloves on)"],
  examples: ["wet"],
  fields: z.object({}),
  changes: true,
  aside: true,
  values: modeValues,
  run: ({ bench }) => ({
    bench: { ...bench, mode: "wet" as const },
    reply: answer({
      title: "Wet: one line each.",
      say: "Short answers from here on.",
      facts: { mode: "wet" },
    }),
  }),
});

export const darkCommand = defineCommand({
  name: "dark",
  summary: "Film is out of its cassette: silence until you say light.",
  topic: "bench",
  sentences: [
    "(dark|dark mode|lights off|light off|loading [film]|going dark|i am loading [film])",
  ],
  examples: ["dark"],
  fields: z.object({}),
  changes: true,
  aside: true,
  values: modeValues,
  run({ bench, now }) {
    const live = liveRuns(bench);
    const wet = live.find((run) => ["in", "pouring"].includes(standing(run, now).kind));
    if (wet !== undefined) {
      return refuse(
        "wet-clock",
        `${wet.tank} has a bath on its film and I would have to stay silent. Go dark after it.`,
        {
          say: `${wet.tank} is running. Go dark after it.`,
        },
      );
    }
    // Nobody pours in the dark: a plan that stands waits for "ready".
    const runs = { ...bench.runs };
    for (const run of live) runs[run.id] = putOff(run);
    return {
      bench: { ...bench, runs, mode: "dark" as const },
      reply: answer({
        title: "Dark. I stay silent until you say light.",
        lines: [
          "Before the light goes: reel dry, scissors, tube and lid on the table, lid ring, phone face down.",
          "Tap the locked lid, then say light.",
          ...live.map((run) => `${run.tank} waits until you say ready.`),
        ],
        say: "Dark. I stay silent until you say light.",
        facts: { mode: "dark" },
      }),
    };
  },
});

export const lightCommand = defineCommand({
  name: "light",
  summary: "Film is in the closed tank: full text again.",
  topic: "bench",
  sentences: ["(light|lights on|light on|bench|bench mode|full text|dry hands|hands dry)"],
  examples: ["light"],
  fields: z.object({}),
  changes: true,
  aside: true,
  values: modeValues,
  run: ({ bench }) => ({
    bench: { ...bench, mode: "bench" as const },
    reply: answer({
      title: "Light. Full text again.",
      lines: bench.mode === "dark" ? ["Lid locked, tube in? Then there is no hurry."] : [],
      say: bench.mode === "dark" ? "Light. Lid locked, tube in?" : "Full text again.",
      facts: { mode: "bench" },
    }),
  }),
});
