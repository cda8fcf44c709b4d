import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { answer } from "../src/reply/reply.ts";

const values = { spoken: "how much is spoken: cues, short or full" };

const spoken = (
  bench: Bench,
  verbosity: NonNullable<NonNullable<Bench["voice"]>["verbosity"]>,
  title: string,
  say: string,
) => ({
  bench: { ...bench, voice: { ...bench.voice, verbosity } },
  reply: answer({ title, say, facts: { spoken: verbosity } }),
});

export const speakCuesCommand = defineCommand({
  name: "speak cues",
  summary: "Speak cues, questions and first aid only.",
  topic: "bench",
  sentences: ["[speak|say|only] cues [only]", "(say|speak|talk) less"],
  examples: ["cues only"],
  fields: z.object({}),
  changes: true,
  values,
  run: ({ bench }) =>
    spoken(
      bench,
      "cues",
      "I speak cues, questions and first aid only. Answers come as text.",
      "Cues only.",
    ),
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
  run: ({ bench }) =>
    spoken(bench, "short", "I speak one breath for each answer.", "One breath each."),
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
  run: ({ bench }) =>
    spoken(bench, "full", "I speak answers with their first lines.", "I read the lines as well."),
});
