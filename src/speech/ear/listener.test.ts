import { expect, test } from "vitest";
import type { FrontEnd } from "../audio/front-end.ts";
import type { Engine } from "../engine.ts";
import { createListener, type EarEvent } from "./listener.ts";

const FRAME = 160;
const MINUTE = 6000;

/** A listener whose voice is whatever is loud, and an engine that counts what it holds. */
function listening() {
  const events: EarEvent[] = [];
  let held = 0;
  let most = 0;
  const engine: Engine = {
    prepare: async () => undefined,
    begin() {
      held = 0;
    },
    feed(samples) {
      held += samples.length / FRAME;
      most = Math.max(most, held);
    },
    end: async () => ({ text: `${Math.round(held)}`, score: 5 }),
    close: () => undefined,
  };
  const frontEnd: FrontEnd = {
    feed: (samples) => ({ samples, voice: [(samples[0] ?? 0) > 100 ? 1 : 0] }),
    close: () => undefined,
  };
  const listener = createListener(frontEnd, engine, (event) => events.push(event));
  let at = 0;
  const hear = async (level: number, frames: number): Promise<void> => {
    const frame = new Float32Array(FRAME).fill(level);
    for (let count = 0; count < frames; count += 1) {
      at += 10;
      await listener.feed(frame, at);
    }
  };
  return { listener, events, hear, most: () => most };
}

test("an utterance begins with the sound before it and ends after a pause", async () => {
  const { events, hear } = listening();
  await hear(0, 100);
  await hear(1000, 80);
  await hear(0, 60);
  expect(events.map(({ kind }) => kind)).toEqual(["began", "heard"]);
  // 40 frames of before, of which 8 are voice already, 72 more of voice, 40 of the pause.
  expect(events[1]).toMatchObject({ text: "152", endedAt: 1800 });
});

test("ten minutes of silence hold nothing and tell nothing", async () => {
  const { events, hear, most } = listening();
  await hear(0, 10 * MINUTE);
  expect([events, most()]).toEqual([[], 0]);
});

test("a monologue of ten minutes is let go of after ten seconds, said once; then it hears again", async () => {
  const { events, hear, most } = listening();
  await hear(1000, 10 * MINUTE);
  expect(events.map(({ kind }) => kind)).toEqual(["began", "too-long"]);
  expect(most()).toBeLessThan(1100);
  await hear(0, 100);
  await hear(1000, 80);
  await hear(0, 60);
  expect(events.map(({ kind }) => kind)).toEqual(["began", "too-long", "began", "heard"]);
});

test("a hole in the sound drops what was begun", async () => {
  const { listener, events, hear } = listening();
  await hear(1000, 50);
  listener.drop();
  await hear(0, 100);
  expect(events.map(({ kind }) => kind)).toEqual(["began"]);
});

test("sound that is clipped is told as torn", async () => {
  const { events, hear } = listening();
  await hear(32_767, 60);
  await hear(0, 60);
  expect(events[1]).toMatchObject({ kind: "heard", torn: true });
});

test("the key opens the ear at once, and waits three seconds for the first word", async () => {
  const { listener, events, hear } = listening();
  listener.press();
  await hear(0, 330);
  expect(events.map(({ kind }) => kind)).toEqual(["began"]);
  await hear(0, 20);
  expect(events[1]).toMatchObject({ kind: "heard", byKey: true });
});
