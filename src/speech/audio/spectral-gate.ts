import { createFft } from "./fft.ts";

/** A window of 32 ms at 16 kHz, moved on by half of it. */
const SIZE = 512;
const HOP = SIZE / 2;
const BINS = SIZE / 2 + 1;

export type GateOptions = {
  /** No bin is turned down below this share of its amplitude. */
  readonly floor: number;
  /** How much of the noise is taken off: 1 is all that is believed to be noise. */
  readonly taken: number;
};

/**
 * Turns down what does not rise above the noise, bin by bin: the noise is followed as the slow
 * minimum of each bin's power, the gain is the decision-directed Wiener gain (Ephraim and Malah
 * 1984, from memory). A stream of 16 kHz goes in and comes out one window later.
 */
export function spectralGate({
  floor,
  taken,
}: GateOptions): (samples: Float32Array) => Float32Array {
  const fft = createFft(SIZE);
  const window = Float32Array.from({ length: SIZE }, (_, at) =>
    Math.sqrt(0.5 - 0.5 * Math.cos((2 * Math.PI * at) / SIZE)),
  );
  const real = new Float32Array(SIZE);
  const imaginary = new Float32Array(SIZE);
  const history = new Float32Array(SIZE);
  const overlap = new Float32Array(SIZE);
  const smooth = new Float32Array(BINS);
  const noise = new Float32Array(BINS);
  const clean = new Float32Array(BINS);
  let pending = new Float32Array(0);
  let frames = 0;

  const frame = (fresh: Float32Array): Float32Array => {
    history.copyWithin(0, HOP);
    history.set(fresh, HOP);
    for (let at = 0; at < SIZE; at += 1) {
      real[at] = (history[at] ?? 0) * (window[at] ?? 0);
      imaginary[at] = 0;
    }
    fft(real, imaginary);
    for (let bin = 0; bin < BINS; bin += 1) {
      const power = (real[bin] ?? 0) ** 2 + (imaginary[bin] ?? 0) ** 2;
      const before = smooth[bin] ?? 0;
      const level = frames === 0 ? power : 0.7 * before + 0.3 * power;
      smooth[bin] = level;
      const believed = noise[bin] ?? 0;
      // Up slowly, down at once: speech is short, noise stays.
      noise[bin] =
        frames < 8
          ? believed + (power - believed) / (frames + 1)
          : level < believed
            ? 0.9 * believed + 0.1 * level
            : believed * 1.008;
      const under = Math.max(1e-9, (noise[bin] ?? 0) * taken);
      const above = power / under;
      const prior = 0.97 * ((clean[bin] ?? 0) / under) + 0.03 * Math.max(0, above - 1);
      const gain = Math.max(floor, prior / (1 + prior));
      clean[bin] = gain * gain * power;
      real[bin] = (real[bin] ?? 0) * gain;
      imaginary[bin] = (imaginary[bin] ?? 0) * gain;
      if (bin > 0 && bin < SIZE / 2) {
        real[SIZE - bin] = real[bin] ?? 0;
        imaginary[SIZE - bin] = -(imaginary[bin] ?? 0);
      }
    }
    frames += 1;
    fft(real, imaginary, true);
    for (let at = 0; at < SIZE; at += 1) {
      overlap[at] = (overlap[at] ?? 0) + (real[at] ?? 0) * (window[at] ?? 0);
    }
    const made = overlap.slice(0, HOP);
    overlap.copyWithin(0, HOP);
    overlap.fill(0, HOP);
    return made;
  };

  return (samples) => {
    const all = new Float32Array(pending.length + samples.length);
    all.set(pending);
    all.set(samples, pending.length);
    const whole = Math.floor(all.length / HOP);
    const made = new Float32Array(whole * HOP);
    for (let at = 0; at < whole; at += 1) {
      made.set(frame(all.subarray(at * HOP, (at + 1) * HOP)), at * HOP);
    }
    pending = all.slice(whole * HOP);
    return made;
  };
}
