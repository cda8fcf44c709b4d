import { expect, test } from "vitest";
import { attendCalls } from "../../../src/channels/voice/attend-call.ts";
import { loadCommands } from "../../../src/commands/registry.ts";
import { DEBIAN_MODEL } from "../../../src/speech/debian-model.ts";
import { loadFlite } from "../../../src/speech/mouth/flite.ts";
import { readable } from "../../../src/speech/mouth/readable.ts";
import { WAKE_WORD } from "../../../src/speech/wake-word.ts";
import { type CallScene, withCall } from "../../discord/support/call.ts";
import type { Heard } from "../../discord/voice-stand-in/person-in-call.ts";
import { fromOpus, loudness, pitch, toOpus } from "../../discord/voice-stand-in/sound.ts";
import { openSpeaker } from "../voices.ts";

const commands = await loadCommands();
const speak = openSpeaker();
const RATE = 48_000;

/** Sentences as frames of Opus, as a member's program sends them. */
const frames = (said: string): Buffer[] =>
  toOpus(speak([said], "rms", 1)[0]?.samples ?? new Int16Array(), 16_000);

const sounds = (heard: readonly Heard[]): Buffer[] =>
  heard.filter(({ isSilence }) => !isSilence).map(({ opus }) => opus);

/** How loud it is, every 20 ms. */
const envelope = (pcm: Int16Array, rate: number): number[] =>
  Array.from({ length: Math.floor((pcm.length * 50) / rate) }, (_, at) =>
    loudness(pcm.subarray((at * rate) / 50, ((at + 1) * rate) / 50)),
  );

/** How alike two envelopes are: 1 is the same, 0 nothing in common (Pearson's coefficient). */
function alike(one: readonly number[], other: readonly number[]): number {
  const length = Math.min(one.length, other.length);
  const mean = (list: readonly number[]): number =>
    list.slice(0, length).reduce((sum, value) => sum + value, 0) / length;
  const [a, b] = [mean(one), mean(other)];
  let [both, first, second] = [0, 0, 0];
  for (let at = 0; at < length; at += 1) {
    const [x, y] = [(one[at] ?? 0) - a, (other[at] ?? 0) - b];
    both += x * y;
    first += x * x;
    second += y * y;
  }
  return both / Math.sqrt(first * second);
}

const CALM = { patience: 10_000 };
const within = async (is: () => boolean, what: string): Promise<void> => {
  for (let turn = 0; turn < 6000 && !is(); turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  expect(is(), what).toBe(true);
};
const written = ({ club }: CallScene): string =>
  club.posts.map(({ content }) => content).join("\n");

test(
  "a question and a change by voice in an encrypted call; the answer and the cue are heard",
  () =>
    withCall(
      async (call) => {
        const { scene, server, club, comeIn } = call;
        const ines = server.enter(club.ines.id);
        expect(await comeIn()).toContain("I listen to members of this bench");
        await scene.standIn.until(() => server.group.transitions.length > 0, "the encrypted group");

        await ines.speak(frames("what time is it"));
        await within(() => written(call).includes("as I heard it: what time is it"), "the words");
        await within(() => server.speaking.at(-1)?.on === false, "the end of the answer");
        const answer = sounds(server.heard);
        const record = await club.bot.record();
        const said = record.threads.Ines?.last?.reply.say ?? "";
        const aloud = loadFlite()(readable(said), "slt", 1).samples;
        const same = alike(envelope(fromOpus(answer), RATE), envelope(aloud, 16_000));
        expect(same, said).toBeGreaterThan(0.9);

        await ines.speak(frames(`${WAKE_WORD} start developer two rolls tank north`));
        await within(
          () => written(call).includes("start developer two rolls tank north"),
          "the run",
        );
        await within(() => server.speaking.at(-1)?.on === false, "the end of the plan");
        const before = server.heard.length;
        await scene.pass(120);
        await within(() => sounds(server.heard.slice(before)).length >= 20, "a cue");
        // The first sound after its instant is a note of a tone of ours, not speech.
        const tone = fromOpus(sounds(server.heard.slice(before)).slice(0, 4));
        expect(loudness(tone)).toBeGreaterThan(500);
        expect([587, 660, 1047].some((hz) => Math.abs(pitch(tone, RATE) - hz) < 30)).toBe(true);

        expect(server.violations).toEqual([]);
        expect(scene.standIn.violations).toEqual([]);
      },
      {
        ...CALM,
        attend: attendCalls({ commands, engine: { kind: "sphinx", model: DEBIAN_MODEL } }),
      },
    ),
  240_000,
);
