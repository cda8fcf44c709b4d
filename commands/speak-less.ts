import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { answer } from "../src/reply/reply.ts";

const values = { spoken: "how much is spoken: cues, short or full" };

export const speakCuesCommand = defineCommand({
  name: "speak cues",
  summary: "Speak cues, questions and first aid only.",
  topic: "bench",
  sentences: ["[speak|say|only] cues [only]", "(say|speak|talk) less"],
  examples: ["cues only"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) => ({
    bench: { ...bench, voice: { ...bench.voice, verbosity: "cues" as const } },
    reply: answer({
      title: "I speak cues, questions and first aid only. Answers come as text.",
      say: "Cues only.",
      facts: { spoken: "cues" },
    }),
  }),
});

export const speakShortCommand = defineCommand({
  name: "speak short",
  summary: "Speak one breath for each answer.",
  topic: "bench",
  sentences: ["(speak|talk) (normally|as usual|again|in one breath)", "answer aloud"],
  examples: ["speak normally"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) => ({
    bench: { ...bench, voice: { ...bench.voice, verbosity: "short" as const } },
    reply: answer({
      title: "I speak one breath for each answer.",
      say: "One breath each.",
      facts: { spoken: "short" },
    }),
  }),
});

export const speakFullCommand = defineCommand({
  name: "speak full",
  summary: "Speak answers with their lines.",
  topic: "bench",
  sentences: ["(say|speak|talk) more", "read [me] [out] (everything|all [lines])"],
  examples: ["say more"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) => ({
    bench: { ...bench, voice: { ...bench.voice, verbosity: "full" as const } },
    reply: answer({
      title: "I speak answers with their first lines.",
      say: "I read the lines as well.",
      facts: { spoken: "full" },
    }),
  }),
});
