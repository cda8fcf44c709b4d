import fc from "fast-check";
import { expect, test } from "vitest";
import { createFft } from "./fft.ts";

/** The transform as its definition has it. */
function slow(signal: readonly number[]): { re: number; im: number }[] {
  return signal.map((_, bin) => {
    let [re, im] = [0, 0];
    signal.forEach((sample, at) => {
      re += sample * Math.cos((2 * Math.PI * bin * at) / signal.length);
      im -= sample * Math.sin((2 * Math.PI * bin * at) / signal.length);
    });
    return { re, im };
  });
}

const signals = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
  minLength: 32,
  maxLength: 32,
});

test("it is the transform of the definition, and back again the signal", () => {
  const fft = createFft(32);
  fc.assert(
    fc.property(signals, (signal) => {
      const real = Float32Array.from(signal);
      const imaginary = new Float32Array(32);
      fft(real, imaginary);
      slow(signal).forEach(({ re, im }, bin) => {
        expect(real[bin]).toBeCloseTo(re, 3);
        expect(imaginary[bin]).toBeCloseTo(im, 3);
      });
      fft(real, imaginary, true);
      signal.forEach((sample, at) => {
        expect(real[at]).toBeCloseTo(sample, 4);
      });
    }),
  );
});

test("other sizes are refused", () => {
  expect(() => createFft(48)).toThrow("no power of two");
});
