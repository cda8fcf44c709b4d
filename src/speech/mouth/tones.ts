import type { Reply } from "../../reply/reply.ts";

/** What a cue wants of the hands: keep the rhythm, get ready, act. */
export type ToneName = "beat" | "warn" | "act";

/** All sound of ours: 16 kHz, one channel. */
export const RATE = 16_000;

type Note = { readonly hz: number; readonly ms: number };

/**
 * Told apart by rhythm first and pitch second, since a running tap hides pitch and some ears miss
 * high notes: one short tick; two even notes that rise; three quick notes that fall.
 */
const tunes: Readonly<Record<ToneName, readonly Note[]>> = {
  beat: [{ hz: 660, ms: 90 }],
  warn: [
    { hz: 587, ms: 110 },
    { hz: 0, ms: 50 },
    { hz: 784, ms: 110 },
  ],
  act: [
    { hz: 1047, ms: 70 },
    { hz: 0, ms: 25 },
    { hz: 1047, ms: 70 },
    { hz: 0, ms: 25 },
    { hz: 698, ms: 160 },
  ],
};

/** Silence between a tone and its words, ms. */
const BREATH = 60;

/** A tone with the breath behind it. Starts at once: its first sample is the cue's instant. */
export function toneOf(name: ToneName): Int16Array {
  const parts = [...tunes[name], { hz: 0, ms: BREATH }].map(noteOf);
  const all = new Int16Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** A soft-edged note with two overtones, so that small speakers carry it. */
function noteOf({ hz, ms }: Note): Int16Array {
  const count = Math.round((RATE * ms) / 1000);
  const edge = Math.round(RATE * 0.004);
  return Int16Array.from({ length: count }, (_, at) => {
    const turn = (2 * Math.PI * hz * at) / RATE;
    const wave = Math.sin(turn) + 0.35 * Math.sin(2 * turn) + 0.15 * Math.sin(3 * turn);
    const soft = Math.min(1, (at + 1) / edge, (count - at) / edge);
    return Math.round(9000 * wave * soft);
  });
}

/** The tone of a cue, by the word in its facts; undefined for what is no cue. */
export function toneFor({ facts }: Pick<Reply, "facts">): ToneName | undefined {
  switch (facts.cue) {
    case undefined:
      return undefined;
    case "pour":
    case "pour-out":
    case "vent":
      return "act";
    case "agitate":
    case "beat":
    case "rest":
      return "beat";
    default:
      return "warn";
  }
}
