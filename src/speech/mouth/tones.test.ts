import { expect, test } from "vitest";
import { toneFor, toneOf } from "./tones.ts";

/** Lengths of the sounds in a tone, ms, silence of 10 ms and more between them. */
function rhythm(samples: Int16Array): number[] {
  const sounds: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  samples.forEach((sample, at) => {
    if (Math.abs(sample) < 200) return;
    if (at - last > 160) sounds.push(at);
    last = at;
  });
  return sounds;
}

test("beat, warn and act differ in rhythm: one, two and three sounds", () => {
  expect((["beat", "warn", "act"] as const).map((tone) => rhythm(toneOf(tone)).length)).toEqual([
    1, 2, 3,
  ]);
});

test("a tone is there at once and short, so that the words behind it are not late", () => {
  for (const tone of ["beat", "warn", "act"] as const) {
    const samples = toneOf(tone);
    expect(samples.findIndex((sample) => Math.abs(sample) > 1000)).toBeLessThan(80);
    expect(samples.length).toBeLessThan(16_000 * 0.5);
    expect(Math.max(...samples.map(Math.abs))).toBeLessThan(20_000);
  }
});

test.each([
  ["pour", "act"],
  ["pour-out", "act"],
  ["vent", "act"],
  ["beat", "beat"],
  ["fetch", "warn"],
  ["ask-in", "warn"],
  [undefined, undefined],
])("the cue %s sounds as %s", (cue, tone) => {
  expect(toneFor({ facts: cue === undefined ? {} : { cue } })).toBe(tone);
});
