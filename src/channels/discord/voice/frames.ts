import type { VoiceLibrary } from "./library.ts";
import type { Sound } from "./ports.ts";

/** Frames a second. */
const FRAMES = 50;

/** The frames of a sound one by one, 20 ms each; samples are encoded as they are needed. */
export type Frames = {
  next(): Uint8Array | undefined;
  close(): void;
};

/** @throws RangeError for a rate that Opus does not know */
export function framesOf(sound: Sound, Opus: VoiceLibrary["Opus"]): Frames {
  if ("opus" in sound) {
    const left = sound.opus.values();
    return { next: () => left.next().value, close: () => undefined };
  }
  const { pcm, rate } = sound;
  const encoder = new Opus(rate, 1, Opus.Application.VOIP);
  const samples = rate / FRAMES;
  let at = 0;
  return {
    next() {
      if (at >= pcm.length) return undefined;
      const frame = new Int16Array(samples);
      frame.set(pcm.subarray(at, at + samples));
      at += samples;
      return encoder.encode(Buffer.from(frame.buffer), samples);
    },
    close: () => encoder.delete(),
  };
}
