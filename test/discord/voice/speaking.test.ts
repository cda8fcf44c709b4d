import { expect, test } from "vitest";
import { ask, withCall } from "../support/call.ts";
import type { Heard } from "../voice-stand-in/person-in-call.ts";
import { fromOpus, pitch, sine, toOpus } from "../voice-stand-in/sound.ts";

const SPEECH = 440;
const CUE = 1000;

const sounds = (heard: readonly Heard[]): Buffer[] =>
  heard.filter(({ isSilence }) => !isSilence).map(({ opus }) => opus);

const isNear = (pcm: Int16Array, hz: number): boolean => Math.abs(pitch(pcm, 48_000) - hz) < 25;

test("a cue cuts speech short, and speech never a cue", () =>
  withCall(async ({ scene, server, club, comeIn, recorder }) => {
    const { standIn } = scene;
    server.enter(club.ines.id);
    await comeIn();
    await standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    const { mouth } = recorder.call;
    mouth.say({ pcm: sine(SPEECH, 3, 16_000), rate: 16_000 });
    await standIn.until(() => sounds(server.heard).length >= 12, "some speech");
    mouth.cue({ opus: toOpus(sine(CUE, 0.3)) });
    const before = sounds(server.heard).length;
    mouth.say({ pcm: sine(600, 0.3, 16_000), rate: 16_000 });
    await standIn.until(() => server.speaking.at(-1)?.on === false, "the end");
    const all = sounds(server.heard);
    // What was on its way at the cue's instant may still arrive behind it.
    expect(all.length - before).toBeLessThanOrEqual(30 + 1);
    expect(all.length - before).toBeGreaterThanOrEqual(30);
    expect(isNear(fromOpus(all.slice(0, 12)), SPEECH)).toBe(true);
    expect(isNear(fromOpus(all.slice(-30, -15)), CUE)).toBe(true);
    expect(isNear(fromOpus(all.slice(-15)), 600)).toBe(true);
    expect(server.heard.slice(-5).every(({ isSilence }) => isSilence)).toBe(true);
    expect(server.violations).toEqual([]);
  }));

test("in the dark nothing is said, nor what was being said", () =>
  withCall(async ({ scene, server, club, comeIn, recorder }) => {
    const { standIn } = scene;
    server.enter(club.ines.id);
    await comeIn();
    await standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    const { mouth } = recorder.call;
    const cue = { opus: toOpus(sine(CUE, 0.2)) };
    mouth.say({ pcm: sine(SPEECH, 5, 16_000), rate: 16_000 });
    await standIn.until(() => server.heard.length > 5, "some speech");
    await ask(scene, club.ines, "dark");
    await standIn.until(() => server.speaking.at(-1)?.on === false, "silence");
    const posts = club.posts.length;
    const { length } = server.heard;
    mouth.cue(cue);
    mouth.say(cue);
    await recorder.call.ask(
      { id: club.ines.id, name: "Ines", standing: "member" },
      { text: "bottles" },
    );
    recorder.call.complain("Something about the voice.");
    await standIn.settled();
    expect(server.heard).toHaveLength(length);
    expect(club.posts).toHaveLength(posts);
    // First aid is answered in every mode; in the dark in writing.
    await recorder.call.ask(
      { id: club.ines.id, name: "Ines", standing: "member" },
      { text: "eyes" },
    );
    await standIn.settled();
    expect(club.posts.length).toBeGreaterThan(posts);
    expect(server.heard).toHaveLength(length);
    await ask(scene, club.ines, "light");
    mouth.cue(cue);
    await standIn.until(() => sounds(server.heard.slice(length)).length === 10, "the cue");
    expect(server.violations).toEqual([]);
  }));
