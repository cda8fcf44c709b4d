import type { Bench } from "../../domain/session/bench.ts";
import type { Reply } from "../../reply/reply.ts";
import { type ToneName, toneFor } from "./tones.ts";

/** How much is spoken. `cues`: cues and answers to questions of life and limb only. */
export type Verbosity = "cues" | "short" | "full";

/** One thing to be spoken: a tone, words, or both. */
export type Utterance = {
  readonly tone: ToneName | undefined;
  readonly words: string;
  /** Cues cut everything else short. */
  readonly cue: boolean;
};

/** At most so many lines of an answer are read out in full mode. */
const MOST_LINES = 4;

/**
 * What of a reply is spoken. Nothing in dark mode but first aid; cues and reminders that nobody
 * asked for are cues only where they are one.
 */
export function whatToSay(
  reply: Reply,
  mode: Bench["mode"],
  verbosity: Verbosity,
): Utterance | undefined {
  const aid = reply.facts.first_aid === true;
  if (mode === "dark" && !aid) return undefined;
  const tone = toneFor(reply);
  const cue = tone !== undefined;
  if (verbosity === "cues" && !cue && !aid && reply.kind !== "question") return undefined;
  if (verbosity !== "full" || cue || aid) return { tone, words: reply.say, cue };
  const lines = reply.lines.slice(0, MOST_LINES).map((line) => line.replace(/\s{2,}/g, ", "));
  return { tone, words: [reply.say, ...lines].join(". ").replace(/\.\./g, "."), cue };
}
