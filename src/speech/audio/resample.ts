/**
 * Changes the sampling rate of a stream, in steps of whole ratios (48 kHz to 16 kHz and back), with
 * a windowed-sinc filter against aliases. Keeps what it needs of the sound before, so that a stream
 * cut into pieces comes out as if it were whole.
 */
export type Resampler = (samples: Float32Array) => Float32Array;

/** Taps on each side of the middle, in samples of the lower rate. */
const REACH = 8;

function lowPass(factor: number): Float32Array {
  const half = REACH * factor;
  const taps = new Float32Array(2 * half + 1);
  let sum = 0;
  for (let at = -half; at <= half; at += 1) {
    const x = (at / factor) * Math.PI * 0.94;
    const sinc = at === 0 ? 1 : Math.sin(x) / x;
    const window = 0.54 + 0.46 * Math.cos((Math.PI * at) / half);
    taps[at + half] = sinc * window;
    sum += sinc * window;
  }
  return taps.map((tap) => tap / sum);
}

/** Every `factor`th sample, of a sound freed of what the lower rate cannot hold. */
export function downsampler(factor: number): Resampler {
  if (factor === 1) return (samples) => samples;
  const taps = lowPass(factor);
  let held = new Float32Array(taps.length - 1);
  let phase = 0;
  return (samples) => {
    const all = new Float32Array(held.length + samples.length);
    all.set(held);
    all.set(samples, held.length);
    const made: number[] = [];
    let at = phase;
    for (; at < samples.length; at += factor) {
      let sum = 0;
      for (let tap = 0; tap < taps.length; tap += 1) sum += (taps[tap] ?? 0) * (all[at + tap] ?? 0);
      made.push(sum);
    }
    phase = at - samples.length;
    held = all.slice(samples.length);
    return Float32Array.from(made);
  };
}

/** `factor` samples for each one, smoothly between them. */
export function upsampler(factor: number): Resampler {
  if (factor === 1) return (samples) => samples;
  const taps = lowPass(factor);
  const reach = Math.floor(taps.length / factor);
  let held = new Float32Array(reach);
  return (samples) => {
    const all = new Float32Array(held.length + samples.length);
    all.set(held);
    all.set(samples, held.length);
    const made = new Float32Array(samples.length * factor);
    for (let at = 0; at < made.length; at += 1) {
      const newest = held.length + Math.floor(at / factor);
      const phase = at % factor;
      let sum = 0;
      for (let back = 0; back <= reach; back += 1) {
        const tap = phase + back * factor;
        if (tap < taps.length) sum += (taps[tap] ?? 0) * (all[newest - back] ?? 0);
      }
      made[at] = sum * factor;
    }
    held = all.slice(samples.length);
    return made;
  };
}
