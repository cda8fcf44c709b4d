import { expect, test } from "vitest";
import { VOICE, withCall } from "../support/call.ts";
import { fromOpus, loudness, pitch, sine, toOpus } from "../voice-stand-in/sound.ts";

/** Two bins of the Fourier transform at 16 kHz, and a bit. */
const NEAR = 10;

test("comes in where a member is, hears them end to end encrypted, and is heard", () =>
  withCall(async ({ scene, server, recorder, club, comeIn }) => {
    const { standIn } = scene;
    const ines = server.enter(club.ines.id);
    expect(await comeIn()).toContain("I listen to members of this bench");
    expect(standIn.voice.botIn).toBe(VOICE);
    await standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    expect(server.group.members).toHaveLength(2);

    await ines.speak(toOpus(sine(440, 0.6)));
    await standIn.until(() => recorder.utterances.length > 0, "the end of what is said");
    const [heard] = recorder.utterances;
    expect(heard?.name).toBe("Ines");
    expect(heard?.pcm.length).toBeGreaterThan(0.55 * 16_000);
    expect(Math.abs(pitch(heard?.pcm ?? new Int16Array(), 16_000) - 440)).toBeLessThan(NEAR);

    recorder.call.mouth.cue({ opus: toOpus(sine(660, 0.4)) });
    await standIn.until(() => server.heard.length >= 25, "the sound of the bot");
    const said = server.heard.filter(({ isSilence }) => !isSilence).map(({ opus }) => opus);
    expect(said).toHaveLength(20);
    expect(Math.abs(pitch(fromOpus(said), 48_000) - 660)).toBeLessThan(2 * NEAR);
    expect(loudness(fromOpus(said))).toBeGreaterThan(1000);
    await standIn.until(() => server.speaking.length >= 2, "the pause after it");
    expect(server.speaking.map(({ on }) => on)).toEqual([true, false]);
    expect(server.violations).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));
