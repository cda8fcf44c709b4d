import { expect, test } from "vitest";
import { createMixer, PIECE } from "./mixer.ts";

const flat = (value: number, pieces: number): Int16Array =>
  new Int16Array(PIECE * pieces).fill(value);

/** What is heard, piece by piece: the value in the middle of each. */
function heard(mixer: ReturnType<typeof createMixer>, pieces: number): (number | undefined)[] {
  return Array.from({ length: pieces }, () => mixer.next()[PIECE - 1]);
}

test("speech comes one after the other, then silence", () => {
  const mixer = createMixer(() => 1);
  mixer.add(flat(100, 2), false);
  mixer.add(flat(200, 1), false);
  expect(heard(mixer, 5)).toEqual([100, 100, 200, 0, 0]);
  expect(mixer.idle()).toBe(true);
});

test("a cue cuts speech short at the very next piece, and speech that waits as well", () => {
  const mixer = createMixer(() => 1);
  mixer.add(flat(100, 50), false);
  mixer.add(flat(150, 50), false);
  mixer.next();
  mixer.add(flat(1000, 2), true);
  expect(heard(mixer, 4)).toEqual([1000, 1000, 0, 0]);
});

test("speech never cuts a cue, and a cue waits for a cue", () => {
  const mixer = createMixer(() => 1);
  mixer.add(flat(1000, 2), true);
  mixer.next();
  mixer.add(flat(100, 1), false);
  mixer.add(flat(2000, 1), true);
  expect(heard(mixer, 3)).toEqual([1000, 2000, 0]);
});

test("speech that is cut fades instead of clicking", () => {
  const mixer = createMixer(() => 1);
  mixer.add(flat(8000, 50), false);
  mixer.next();
  mixer.hush();
  const tail = mixer.next();
  expect(tail[0]).toBeGreaterThan(7900);
  expect(tail[80]).toBeLessThan(4500);
  expect(tail[160]).toBe(0);
});

test("volume holds from the next piece on, and nothing overflows", () => {
  let volume = 1;
  const mixer = createMixer(() => volume);
  mixer.add(flat(30_000, 3), false);
  expect(heard(mixer, 1)).toEqual([30_000]);
  volume = 0.5;
  expect(heard(mixer, 1)).toEqual([15_000]);
  volume = 2;
  expect(heard(mixer, 1)).toEqual([32_767]);
});

test("a backlog is bounded", () => {
  const mixer = createMixer(() => 1);
  for (let at = 1; at <= 1000; at += 1) mixer.add(flat(at, 1), false);
  const said = heard(mixer, 20).filter((value) => value !== 0);
  expect(said.length).toBe(8);
  expect(said.at(-1)).toBe(1000);
});
