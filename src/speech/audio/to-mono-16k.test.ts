import { describe, expect, test } from "vitest";
import { toMono16k } from "./to-mono-16k.ts";

const tone = (hz: number, rate: number, seconds: number, channels = 1): Int16Array =>
  Int16Array.from({ length: rate * seconds * channels }, (_, at) =>
    Math.round(10_000 * Math.sin((2 * Math.PI * hz * Math.floor(at / channels)) / rate)),
  );

/** The strength of one frequency in 16 kHz sound, by Goertzel's sum written out. */
function strength(sound: Float32Array, hz: number): number {
  let [re, im] = [0, 0];
  for (let at = 0; at < sound.length; at += 1) {
    re += (sound[at] ?? 0) * Math.cos((2 * Math.PI * hz * at) / 16_000);
    im += (sound[at] ?? 0) * Math.sin((2 * Math.PI * hz * at) / 16_000);
  }
  return (2 * Math.hypot(re, im)) / sound.length;
}

test.each([8000, 11_025, 16_000, 22_050, 44_100, 48_000])("a tone of %d Hz sound stays", (rate) => {
  const sound = toMono16k({ rate, channels: 1 })(tone(440, rate, 1));
  expect(Math.abs(sound.length - 16_000)).toBeLessThanOrEqual(2);
  expect(strength(sound, 440)).toBeGreaterThan(9500);
});

test("two channels become one", () => {
  const sound = toMono16k({ rate: 48_000, channels: 2 })(tone(440, 48_000, 1, 2));
  expect(sound.length).toBe(16_000);
  expect(strength(sound, 440)).toBeGreaterThan(9500);
});

test("what 16 kHz cannot hold does not come back as another tone", () => {
  const sound = toMono16k({ rate: 48_000, channels: 1 })(tone(11_000, 48_000, 1));
  expect(strength(sound, 5000)).toBeLessThan(100);
});

test("a stream cut into odd pieces is the same as the whole", () => {
  const whole = tone(440, 44_100, 0.5, 2);
  const together = toMono16k({ rate: 44_100, channels: 2 })(whole);
  const stream = toMono16k({ rate: 44_100, channels: 2 });
  const pieces: number[] = [];
  for (let at = 0; at < whole.length; at += 777) pieces.push(...stream(whole.slice(at, at + 777)));
  expect(pieces.length).toBe(together.length);
  expect(pieces.every((sample, at) => Math.abs(sample - (together[at] ?? 0)) < 0.01)).toBe(true);
});

describe("a form no device has", () => {
  test.each([
    { rate: 0, channels: 1 },
    { rate: 16_000, channels: 0 },
    { rate: Number.NaN, channels: 1 },
  ])("$rate Hz, $channels channels is refused", (form) => {
    expect(() => toMono16k(form)).toThrow("cannot be used");
  });
});
