import { expect, test } from "vitest";
import { hushBetween } from "./hush-between.ts";

const FRAME = 160;

/** Levels of frames of 10 ms, each a constant, behind the gate; `voice` names the frames of speech. */
function levels(frames: number, voice: (frame: number) => boolean): readonly number[] {
  let at = 0;
  const gate = hushBetween({
    feed: (samples) => {
      const made = { samples, voice: [voice(at) ? 0.9 : 0.1] };
      at += 1;
      return made;
    },
    close: () => undefined,
  });
  const all: number[] = [];
  for (let frame = 0; frame < frames; frame += 1) {
    const { samples } = gate.feed(new Float32Array(FRAME).fill(100));
    all.push(samples[FRAME - 1] ?? 0);
  }
  return all;
}

test("speech passes as it is, from a tenth of a second before it to a little behind it", () => {
  const heard = levels(110, (frame) => frame >= 40 && frame < 60);
  const loud = heard.flatMap((level, frame) => (level > 99 ? [frame] : []));
  // The sound is a tenth of a second late.
  expect([loud[0], loud.at(-1)]).toEqual([30 + 10, 71 + 10]);
  expect(loud).toHaveLength(42);
});

test("what lies between is turned down, and softly: it does not click", () => {
  const heard = levels(60, () => false);
  expect(Math.max(...heard)).toBeLessThan(4);
});

test("where a voice is, is told at once", () => {
  const gate = hushBetween({
    feed: (samples) => ({ samples, voice: [0.9, 0.1] }),
    close: () => undefined,
  });
  const { samples, voice } = gate.feed(new Float32Array(2 * FRAME));
  expect([samples.length, voice]).toEqual([2 * FRAME, [0.9, 0.1]]);
});
