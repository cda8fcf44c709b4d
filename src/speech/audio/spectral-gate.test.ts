import { expect, test } from "vitest";
import { seeded } from "../../../test/support/seeded.ts";
import { spectralGate } from "./spectral-gate.ts";

const RATE = 16_000;
const power = (sound: Float32Array): number =>
  sound.reduce((sum, sample) => sum + sample * sample, 0) / sound.length;

/** Two seconds of hiss; a tone stands up in the second one. */
function hissAndTone(tone: number): Float32Array {
  const chance = seeded(3);
  return Float32Array.from({ length: 2 * RATE }, (_, at) => {
    const hiss = (chance() + chance() + chance() - 1.5) * 600;
    return hiss + (at < RATE ? 0 : tone * Math.sin((2 * Math.PI * 500 * at) / RATE));
  });
}

test("hiss is turned down by 10 dB and more, a tone in it stays", () => {
  const gate = spectralGate({ floor: 0.1, taken: 1.5 });
  const sound = hissAndTone(5000);
  const clean = gate(sound);
  const [before, after] = [sound.subarray(8000, 15_000), clean.subarray(8000, 15_000)];
  expect(10 * Math.log10(power(before) / power(after))).toBeGreaterThan(10);
  const kept = power(clean.subarray(20_000, 30_000)) / (5000 ** 2 / 2);
  expect(kept).toBeGreaterThan(0.7);
  expect(kept).toBeLessThan(1.1);
});

test("silence stays silence and clipped sound stays finite", () => {
  expect(power(spectralGate({ floor: 0.1, taken: 1 })(new Float32Array(RATE)))).toBe(0);
  const square = Float32Array.from({ length: RATE }, (_, at) => (at % 80 < 40 ? 32_767 : -32_768));
  const clean = spectralGate({ floor: 0.1, taken: 1 })(square);
  expect(clean.every((sample) => Number.isFinite(sample))).toBe(true);
});
