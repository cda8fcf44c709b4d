import { expect, test } from "vitest";
import { createCueCache } from "./cue-cache.ts";
import { openOpus } from "./opus.ts";
import { RATE, toneOf } from "./tones.ts";

/** A voice that says every text as 100 ms of the same sound, and counts. */
function countingVoice(works = true) {
  const said: string[] = [];
  return {
    said,
    close: async () => undefined,
    say: async (text: string) => {
      said.push(text);
      return works ? new Int16Array(RATE / 10).fill(500) : undefined;
    },
  };
}

test("a cue is made once, tone first, and is there at once when it is due", async () => {
  const voice = countingVoice();
  const sounds = createCueCache(voice, undefined);
  const made = await sounds.get("act", "North: pour out now.");
  expect(await sounds.get("act", "North: pour out now.")).toBe(made);
  expect(sounds.now("act", "North: pour out now.")).toBe(made);
  expect(voice.said).toEqual(["North: pour out now."]);
  expect(made.samples.length).toBe(toneOf("act").length + RATE / 10);
});

test("a cue that was not made in time, or cannot be spoken, is its tone alone", async () => {
  const sounds = createCueCache(countingVoice(false), undefined);
  expect(sounds.now("warn", "fetch").samples).toEqual(toneOf("warn"));
  expect((await sounds.get("warn", "fetch")).samples).toEqual(toneOf("warn"));
});

test("no more than 64 sounds are kept, the latest used ones", async () => {
  const voice = countingVoice();
  const sounds = createCueCache(voice, undefined);
  for (let at = 0; at < 100; at += 1) {
    await sounds.get("beat", `cue ${at}`);
    await sounds.get("beat", "cue 0");
  }
  await sounds.get("beat", "cue 0");
  expect(voice.said.filter((text) => text === "cue 0").length).toBe(1);
  await sounds.get("beat", "cue 1");
  expect(voice.said.filter((text) => text === "cue 1").length).toBe(2);
});

test("as Opus it is the same sound: packets of 20 ms that decode to it", async () => {
  const opus = openOpus();
  const sounds = createCueCache(countingVoice(), opus);
  const { samples, opus: packets = [] } = await sounds.get("act", "out");
  expect(packets.length).toBe(Math.ceil(samples.length / 320));
  const decoded = opus.decode(packets);
  const power = (sound: Int16Array): number => sound.reduce((sum, one) => sum + one * one, 0);
  expect(power(decoded) / power(samples)).toBeGreaterThan(0.8);
  expect(power(decoded) / power(samples)).toBeLessThan(1.2);
});
