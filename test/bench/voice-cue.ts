import { missingPackages } from "../../src/channels/discord/voice/packages.ts";
import { percentile } from "./percentile.ts";

export type VoiceCue = {
  /** From the call for a cue to its first packet at the voice server, ms. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
};

const CUES = 60;
/** Frames of one cue: 60 ms. */
const FRAMES = 3;
const CUE_HZ = 1000;
const SPEECH_HZ = 300;

/**
 * A cue's way into a call on loopback, encrypted both ways, every other time in the middle of speech.
 *
 * @returns undefined where the packages for calls are missing
 */
export async function benchVoiceCue(): Promise<VoiceCue | undefined> {
  if (missingPackages().length > 0) return undefined;
  const { withCall } = await import("../discord/support/call.ts");
  const { sine, toOpus } = await import("../discord/voice-stand-in/sound.ts");
  const took: number[] = [];
  await withCall(async ({ scene, server, club, comeIn, recorder }) => {
    const { standIn } = scene;
    server.enter(club.ines.id);
    await comeIn();
    await standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    const { mouth } = recorder.call;
    const opus = toOpus(sine(CUE_HZ, FRAMES / 50));
    const [first = Buffer.alloc(0)] = opus;
    const speech = sine(SPEECH_HZ, 5, 16_000);
    for (let cue = 0; cue < CUES; cue += 1) {
      if (cue % 2 === 1) {
        const { length } = server.heard;
        mouth.say({ pcm: speech, rate: 16_000 });
        await standIn.until(() => server.heard.length > length + 3, "some speech");
      }
      const { length } = server.heard;
      const at = performance.now();
      mouth.cue({ opus });
      const isFirst = (frame: { readonly opus: Buffer }) => frame.opus.equals(first);
      await standIn.until(() => server.heard.slice(length).some(isFirst), "the cue");
      took.push((server.heard.slice(length).find(isFirst)?.at ?? 0) - at);
      const before = server.speaking.length;
      await standIn.until(
        () => server.speaking.length > before || !server.speaking.at(-1)?.on,
        "the end",
      );
    }
  });
  return { p50: percentile(took, 50), p99: percentile(took, 99), max: percentile(took, 100) };
}
