/** How a device gives its sound: 16-bit samples, channels side by side. */
export type PcmForm = { readonly rate: number; readonly channels: number };

/** A stream in the form every part behind it wants: 16 kHz, one channel. */
export type ToMono16k = (samples: Int16Array) => Float32Array;

const RATE = 16_000;
/** Taps of the filter that keeps aliases out, on each side. */
const REACH = 24;

/**
 * Brings a stream of any usual rate to 16 kHz and one channel, a piece at a time: low-pass, then
 * the value between two samples by a straight line. Telephone sound of 8 kHz comes out as it is,
 * with nothing above 4 kHz.
 *
 * @throws for a rate or a number of channels that no device has
 */
export function toMono16k({ rate, channels }: PcmForm): ToMono16k {
  if (!(rate >= 8000 && rate <= 192_000) || !(channels >= 1 && channels <= 8)) {
    throw new Error(`sound of ${rate} Hz in ${channels} channels cannot be used`);
  }
  const mono = mixer(channels);
  if (rate === RATE) return mono;
  const smooth = rate > RATE ? lowPass(RATE / rate) : (samples: Float32Array) => samples;
  const step = rate / RATE;
  let last = 0;
  /** Where the next sample lies, counted from `last`. */
  let at = 0;
  return (samples) => {
    const fresh = smooth(mono(samples));
    const made = new Float32Array(Math.max(0, Math.ceil((fresh.length - at) / step)));
    let count = 0;
    for (; at < fresh.length; at += step) {
      const whole = Math.floor(at);
      const before = whole === 0 ? last : (fresh[whole - 1] ?? 0);
      const after = fresh[whole] ?? 0;
      made[count] = before + (after - before) * (at - whole);
      count += 1;
    }
    at -= fresh.length;
    last = fresh.at(-1) ?? last;
    return made.subarray(0, count);
  };
}

/** All channels added up; a sample cut off in the middle waits for its other channels. */
function mixer(channels: number): ToMono16k {
  let held: readonly number[] = [];
  return (samples) => {
    if (channels === 1) return Float32Array.from(samples);
    const all = [...held, ...samples];
    const count = Math.floor(all.length / channels);
    held = all.slice(count * channels);
    return Float32Array.from({ length: count }, (_, at) => {
      let sum = 0;
      for (let channel = 0; channel < channels; channel += 1)
        sum += all[at * channels + channel] ?? 0;
      return sum / channels;
    });
  };
}

function lowPass(cut: number): (samples: Float32Array) => Float32Array {
  const taps = Float32Array.from({ length: 2 * REACH + 1 }, (_, index) => {
    const at = index - REACH;
    const x = Math.PI * at * cut * 0.94;
    const sinc = at === 0 ? 1 : Math.sin(x) / x;
    return cut * 0.94 * sinc * (0.54 + 0.46 * Math.cos((Math.PI * at) / REACH));
  });
  let held = new Float32Array(taps.length - 1);
  return (samples) => {
    const all = new Float32Array(held.length + samples.length);
    all.set(held);
    all.set(samples, held.length);
    held = all.slice(samples.length);
    return Float32Array.from({ length: samples.length }, (_, at) => {
      let sum = 0;
      for (let tap = 0; tap < taps.length; tap += 1) sum += (taps[tap] ?? 0) * (all[at + tap] ?? 0);
      return sum;
    });
  };
}
