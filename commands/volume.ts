import { z } from "zod";
import { defineCommand, type Outcome } from "../src/commands/define-command.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { plain } from "../src/domain/units/show.ts";
import { answer } from "../src/reply/reply.ts";

/** As loud as a bench speaks that was told nothing; what one word changes; the quietest it goes. */
const USUAL = 0.7;
const STEP = 0.15;
const LEAST = 0.1;

const values = { volume_percent: "how loud the bench speaks, 0 to 100" };

function setVolume(bench: Bench, wanted: number): Outcome {
  const volume = Math.round(Math.min(1, Math.max(LEAST, wanted)) * 100) / 100;
  const says = `Volume ${plain(volume * 100, 0)} percent.`;
  return {
    bench: { ...bench, voice: { ...bench.voice, volume } },
    reply: answer({
      title: says,
      say: says,
      figures: { volume_percent: { value: volume * 100, origin: { kind: "computed" } } },
    }),
  };
}

const now = ({ voice }: Bench): number => voice?.volume ?? USUAL;

export const volumeCommand = defineCommand({
  name: "volume",
  summary: "How loud the bench speaks, in percent.",
  topic: "bench",
  sentences: ["[set] [the] volume [to|at|is] {percent}", "[set] [the] volume"],
  examples: ["volume 60 percent"],
  fields: z.object({
    percent: z.object({ percent: z.number().min(10).max(100) }, "How loud, 10 to 100 percent?"),
  }),
  changes: true,
  values,
  run: ({ bench }, { percent }) => setVolume(bench, percent.percent / 100),
});

export const louderCommand = defineCommand({
  name: "louder",
  summary: "Speak louder.",
  topic: "bench",
  sentences: ["[speak|talk|a bit] louder", "volume up", "turn it up"],
  examples: ["louder"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) => setVolume(bench, now(bench) + STEP),
});

export const softerCommand = defineCommand({
  name: "softer",
  summary: "Speak more softly.",
  topic: "bench",
  sentences: ["[speak|talk|a bit] [more] (softer|softly|quieter)", "volume down", "turn it down"],
  examples: ["softer"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) => setVolume(bench, now(bench) - STEP),
});
