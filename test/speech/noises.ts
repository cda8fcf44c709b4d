import { seeded } from "../support/seeded.ts";

export type Noise = "white" | "pink" | "fan" | "water";
const RATE = 16_000;

/** Noise of one kind, `count` samples around -1..1 with an RMS of 1. The same seed, the same sound. */
export function noise(kind: Noise, count: number, seed: number): Float32Array {
  const chance = seeded(seed);
  const made = makers[kind](count, chance);
  let power = 0;
  for (const sample of made) power += sample * sample;
  const scale = 1 / Math.sqrt(power / Math.max(1, count));
  return made.map((sample) => sample * scale);
}

type Chance = () => number;

/** Normally distributed, by Box and Muller. */
const normal = (chance: Chance): number =>
  Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());

const white = (count: number, chance: Chance): Float32Array =>
  Float32Array.from({ length: count }, () => normal(chance));

/** Falls by 3 dB an octave: the sum of one-pole filters an octave and a half apart (P. Kellet's, from memory). */
function pink(count: number, chance: Chance): Float32Array {
  const poles = [0.99886, 0.99332, 0.969, 0.8665, 0.55, -0.7616];
  const gains = [0.0555179, 0.0750759, 0.153852, 0.3104856, 0.5329522, -0.016898];
  const held = poles.map(() => 0);
  let delayed = 0;
  return Float32Array.from({ length: count }, () => {
    const fresh = normal(chance);
    let sum = delayed + fresh * 0.5362;
    for (let at = 0; at < poles.length; at += 1) {
      held[at] = (poles[at] ?? 0) * (held[at] ?? 0) + fresh * (gains[at] ?? 0);
      sum += held[at] ?? 0;
    }
    delayed = fresh * 0.115926;
    return sum;
  });
}

/** An extractor fan: low rushing air, and the hum of motor and blades with its overtones. */
function fan(count: number, chance: Chance): Float32Array {
  const air = pink(count, chance);
  const blades = 96 + 8 * chance();
  let low = 0;
  return air.map((sample, at) => {
    low += 0.12 * (sample - low);
    const time = at / RATE;
    let hum = 0;
    for (let tone = 1; tone <= 6; tone += 1) {
      hum += Math.sin(2 * Math.PI * blades * tone * time + tone) / tone;
    }
    const wobble = 1 + 0.15 * Math.sin(2 * Math.PI * 2.3 * time);
    return (low * 2 + sample * 0.25 + hum * 0.45) * wobble;
  });
}

/**
 * A running tap: a hiss that swells and falls, and some thousand bubbles a second, each a tone
 * between 350 and 5,000 Hz that rises a little and dies away within milliseconds.
 */
function water(count: number, chance: Chance): Float32Array {
  const hiss = white(count, chance);
  const made = new Float32Array(count);
  let smooth = 0;
  let before = 0;
  let swell = 1;
  for (let at = 0; at < count; at += 1) {
    const sample = hiss[at] ?? 0;
    smooth += 0.55 * (sample - smooth);
    swell += 0.0006 * (1 + 0.9 * (chance() * 2 - 1) * 12 - swell);
    made[at] = (smooth - 0.6 * before) * Math.max(0.35, swell);
    before = smooth;
  }
  const bubbles = Math.round((count / RATE) * 1000);
  for (let bubble = 0; bubble < bubbles; bubble += 1) {
    const start = Math.floor(chance() * count);
    const pitch = 350 * (5000 / 350) ** chance();
    const lasts = 0.003 + 0.012 * chance();
    const loud = 0.2 + 1.2 * chance() ** 3;
    const end = Math.min(count, start + Math.round(RATE * lasts * 5));
    for (let at = start; at < end; at += 1) {
      const time = (at - start) / RATE;
      const tone = Math.sin(2 * Math.PI * pitch * (1 + 3 * time) * time);
      made[at] = (made[at] ?? 0) + loud * tone * Math.exp(-time / lasts);
    }
  }
  return made;
}

const makers: Readonly<Record<Noise, (count: number, chance: Chance) => Float32Array>> = {
  white,
  pink,
  fan,
  water,
};

/** The level of speech, over the 20 ms that are speech: above a fiftieth of the loudest. */
export function speechLevel(speech: Int16Array): number {
  const frame = 320;
  const powers: number[] = [];
  for (let from = 0; from + frame <= speech.length; from += frame) {
    let power = 0;
    for (let at = from; at < from + frame; at += 1) power += (speech[at] ?? 0) ** 2;
    powers.push(power / frame);
  }
  const most = powers.reduce((a, b) => Math.max(a, b), 0);
  const spoken = powers.filter((power) => power > most / 2500);
  return Math.sqrt(spoken.reduce((a, b) => a + b, 0) / Math.max(1, spoken.length));
}
