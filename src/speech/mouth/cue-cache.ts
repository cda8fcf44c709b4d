import type { Voice } from "./open-voice.ts";
import type { OpusCoder, OpusPackets } from "./opus.ts";
import { readable } from "./readable.ts";
import { type ToneName, toneOf } from "./tones.ts";

/** A sound ready to be played. */
export type Ready = {
  /** 16 kHz, one channel. */
  readonly samples: Int16Array;
  /** The same as Opus; missing where its package is. */
  readonly opus: OpusPackets | undefined;
};

export type CueCache = {
  /** The sound of a tone and words, made now or before. Without a voice the tone alone. */
  get(tone: ToneName | undefined, words: string): Promise<Ready>;
  /** The same if it is ready; the tone alone if it is not: a cue waits for nothing. */
  now(tone: ToneName, words: string): Ready;
};

/** Sounds kept: two seconds of cue are 8 kB of Opus and 64 kB of samples. */
const MOST = 64;

/** Cues are made before they are due and kept, the latest used ones, as Opus and as samples. */
export function createCueCache(
  voice: Voice,
  opus: OpusCoder | undefined,
  /** 0 to 1, put into the sound itself; left out where whoever plays it turns it up and down. */
  volume: () => number = () => 1,
): CueCache {
  const kept = new Map<string, Ready>();
  const keyOf = (tone: ToneName | undefined, words: string): string =>
    `${volume()} ${tone ?? ""} ${words}`;
  const keep = (key: string, ready: Ready): Ready => {
    kept.delete(key);
    kept.set(key, ready);
    const oldest = kept.keys().next().value;
    if (kept.size > MOST && oldest !== undefined) kept.delete(oldest);
    return ready;
  };
  const made = (full: Int16Array): Ready => {
    const loud = volume();
    const samples = loud === 1 ? full : full.map((sample) => Math.round(sample * loud));
    return { samples, opus: opus?.encode(samples) };
  };

  return {
    async get(tone, words) {
      const key = keyOf(tone, words);
      const known = kept.get(key);
      if (known !== undefined) return keep(key, known);
      const head = tone === undefined ? new Int16Array() : toneOf(tone);
      const spoken = words === "" ? undefined : await voice.say(readable(words));
      const samples = new Int16Array(head.length + (spoken?.length ?? 0));
      samples.set(head);
      if (spoken !== undefined) samples.set(spoken, head.length);
      // What could not be spoken is tried again next time.
      return spoken === undefined && words !== "" ? made(samples) : keep(key, made(samples));
    },
    now(tone, words) {
      return kept.get(keyOf(tone, words)) ?? made(toneOf(tone));
    },
  };
}
