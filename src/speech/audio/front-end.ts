import { hushBetween } from "./hush-between.ts";
import { openRnnoise } from "./rnnoise.ts";

/** Sound freed of noise, 16 kHz, and how likely each 10 ms of it were a voice, 0 to 1. */
export type Cleaned = { readonly samples: Float32Array; readonly voice: readonly number[] };
export type FrontEnd = {
  feed(samples: Float32Array): Cleaned;
  close(): void;
};

/**
 * What stands between the microphone and the recogniser: one network that takes the noise off and
 * tells where a voice is, and a gate that hushes what is left between words. Others were measured beside it, see the table in DEVELOPERS.md.
 *
 * @throws when its package is not there
 */
export const openFrontEnd = async (): Promise<FrontEnd> => hushBetween(await openRnnoise());
