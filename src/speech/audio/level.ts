/** What the loudness of an utterance tells of the microphone. */
export type Level = {
  /** Share of samples at the end of the scale. */
  readonly clipped: number;
  /** Largest sample, of 32,767. */
  readonly peak: number;
};

const TOP = 32_600;

export function levelOf(samples: Float32Array): Level {
  let over = 0;
  let peak = 0;
  for (const sample of samples) {
    const size = Math.abs(sample);
    if (size >= TOP) over += 1;
    if (size > peak) peak = size;
  }
  return { clipped: samples.length === 0 ? 0 : over / samples.length, peak };
}

/** Above this share an utterance is torn. */
export const TORN = 0.02;

export const toInt16 = (samples: Float32Array): Int16Array =>
  Int16Array.from(samples, (sample) => Math.max(-32_768, Math.min(32_767, Math.round(sample))));
