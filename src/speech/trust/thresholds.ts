/**
 * Least scores (see `EngineHeard`) for what is done with an utterance. Measured with the phrases
 * and the unrelated talk of `npm run bench`; the distributions stand in DEVELOPERS.md.
 */
export type Thresholds = {
  /** It was meant for the bench: below this it was not understood. */
  readonly addressed: number;
  /** Unasked, of one or two words, and longer. */
  readonly short: number;
  readonly long: number;
  /** again, hold, trouble, first aid. */
  readonly always: number;
  /** A spoken yes. */
  readonly yes: number;
  /** A change nobody asked for is worth a question from here on. */
  readonly unasked: number;
  /** A change that was meant is done without a question from here on; with a number in it from there. */
  readonly change: number;
  readonly number: number;
  /** So much more of it where there is noise. */
  readonly noise: number;
};

export const usualThresholds: Thresholds = {
  addressed: -25,
  short: -12,
  long: -12,
  always: -15,
  yes: -15,
  unasked: -4,
  change: -2,
  number: 0,
  noise: 7,
};
