import OpusScript from "opusscript";
import { expect, test } from "vitest";
import { createFakeClock } from "../../../../test/support/fake-clock.ts";
import { createMouth } from "./mouth.ts";

/** Frames that say which sound they are of. */
const sound = (name: string, frames: number) => ({
  opus: Array.from({ length: frames }, () => Buffer.from(name)),
});

function open() {
  const clock = createFakeClock();
  const from = clock.monotonic();
  const sent: { readonly at: number; readonly what: string }[] = [];
  const state = { line: true, dark: false, pauses: 0, faults: 0 };
  const mouth = createMouth({
    Opus: OpusScript,
    wire: clock,
    send(frame) {
      if (!state.line) return false;
      const isSilence = frame.equals(Buffer.of(0xf8, 0xff, 0xfe));
      sent.push({ at: clock.monotonic() - from, what: isSilence ? "-" : String(frame) });
      return true;
    },
    pause: () => {
      state.pauses += 1;
    },
    isMuted: () => state.dark,
    onFault: () => {
      state.faults += 1;
    },
  });
  return { clock, mouth, state, sent, words: () => sent.map(({ what }) => what).join("") };
}

test("frames go out each 20 ms, then five of silence, then it pauses", () => {
  const { clock, mouth, state, sent, words } = open();
  mouth.say(sound("a", 3));
  clock.advance(500);
  expect(words()).toBe("aaa-----");
  expect(sent.map(({ at }) => at)).toEqual([0, 20, 40, 60, 80, 100, 120, 140]);
  expect(state.pauses).toBe(1);
  expect(clock.timers()).toBe(0);
});

test("a cue goes out at its instant, in the middle of speech, which does not go on", () => {
  const { clock, mouth, sent, words } = open();
  mouth.say(sound("s", 50));
  clock.advance(47);
  mouth.cue(sound("c", 2));
  expect(sent.at(-1)).toEqual({ at: 47, what: "c" });
  clock.advance(500);
  expect(words()).toBe("ssscc-----");
});

test("speech waits for a cue, and a cue for another; each comes whole", () => {
  const { clock, mouth, words } = open();
  mouth.cue(sound("1", 3));
  mouth.say(sound("s", 2));
  mouth.cue(sound("2", 2));
  clock.advance(500);
  expect(words()).toBe("11122ss-----");
});

test("of what waits too long the oldest speech is left out, and never more than four cues wait", () => {
  const { clock, mouth, words } = open();
  mouth.cue(sound("0", 1));
  for (const name of "123456") mouth.cue(sound(name, 1));
  for (const name of "abcdef") mouth.say(sound(name, 1));
  clock.advance(1000);
  expect(words()).toBe("01234cdef-----");
});

test("hushed, speech ends and cues go on", () => {
  const { clock, mouth, words } = open();
  mouth.say(sound("s", 20));
  clock.advance(30);
  mouth.hush();
  mouth.cue(sound("c", 2));
  mouth.hush();
  clock.advance(500);
  expect(words()).toBe("sscc-----");
});

test("what falls into the dark or has no line is dropped, not kept for later", () => {
  const { clock, mouth, state, words } = open();
  mouth.say(sound("s", 20));
  clock.advance(30);
  state.dark = true;
  mouth.cue(sound("c", 2));
  clock.advance(500);
  state.dark = false;
  state.line = false;
  mouth.cue(sound("d", 2));
  clock.advance(500);
  state.line = true;
  clock.advance(500);
  mouth.cue(sound("e", 1));
  clock.advance(500);
  expect(words()).toBe("ss-----e-----");
});

test("a machine that was busy goes on from now, without a burst", () => {
  const { clock, mouth, sent } = open();
  mouth.say(sound("s", 20));
  clock.advance(10);
  clock.stall(300);
  clock.advance(30);
  expect(sent.map(({ at }) => at)).toEqual([0, 310, 330]);
});

test("samples are encoded, the last frame filled up; a rate that Opus does not know is a fault and no more", () => {
  const { clock, mouth, state, sent } = open();
  mouth.say({ pcm: new Int16Array(400), rate: 16_000 });
  clock.advance(500);
  expect(sent.filter(({ what }) => what !== "-")).toHaveLength(2);
  const wrong = { pcm: new Int16Array(400), rate: 22_050 };
  mouth.say(wrong as unknown as Parameters<typeof mouth.say>[0]);
  mouth.say(sound("s", 1));
  clock.advance(500);
  expect(state.faults).toBe(1);
  expect(sent.map(({ what }) => what)).toContain("s");
});

test("closed, it says nothing more", () => {
  const { clock, mouth, sent } = open();
  mouth.say(sound("s", 20));
  mouth.close();
  mouth.cue(sound("c", 1));
  clock.advance(500);
  expect(sent).toHaveLength(1);
  expect(clock.timers()).toBe(0);
});
