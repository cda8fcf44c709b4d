import type { Speaker } from "../../../src/channels/discord/rooms/room.ts";
import type { Attend, BenchCall } from "../../../src/channels/discord/voice/ports.ts";
import type { Reply } from "../../../src/reply/reply.ts";
import { makeCertificate, trust } from "../voice-stand-in/certificate.ts";
import {
  startVoiceServer,
  type VoiceServer,
  type VoiceServerSpec,
} from "../voice-stand-in/voice-server.ts";
import { type Scene, withScene } from "./bot.ts";
import { ask, openBenchAt } from "./club.ts";

/** What was heard of one member up to an end. */
export type Utterance = { readonly name: string; readonly pcm: Int16Array };

/** Ears that keep what they hear, for tests alone; nothing in the program does. */
export type Recorder = {
  readonly attend: Attend;
  /** What was heard, each up to its end. */
  readonly utterances: readonly Utterance[];
  /** The largest piece that was handed over, in samples. */
  readonly largest: number;
  /** Samples that were heard since the last end. */
  readonly pending: number;
  /** The call at hand. */
  readonly call: BenchCall;
  readonly told: readonly Reply[];
  readonly closed: number;
};

function join(all: readonly Int16Array[]): Int16Array {
  const whole = new Int16Array(all.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const one of all) {
    whole.set(one, at);
    at += one.length;
  }
  return whole;
}

export function createRecorder(): Recorder {
  const parts = new Map<string, Int16Array[]>();
  const utterances: Utterance[] = [];
  const told: Reply[] = [];
  let call: BenchCall | undefined;
  let largest = 0;
  let closed = 0;
  return {
    attend(made) {
      call = made;
      return {
        ears: {
          hear({ name }: Speaker, pcm) {
            largest = Math.max(largest, pcm.length);
            parts.set(name, [...(parts.get(name) ?? []), pcm]);
          },
          end({ name }) {
            utterances.push({ name, pcm: join(parts.get(name) ?? []) });
            parts.delete(name);
          },
        },
        told: (replies) => void told.push(...replies),
        close: () => {
          closed += 1;
        },
      };
    },
    utterances,
    told,
    get largest() {
      return largest;
    },
    get pending() {
      return [...parts.values()].flat().reduce((sum, { length }) => sum + length, 0);
    },
    get call() {
      if (call === undefined) throw new Error("No call was made");
      return call;
    },
    get closed() {
      return closed;
    },
  };
}

export const VOICE = "wet-voice";
/** A voice server that is not there in time, real ms: the loopback one takes some tens. */
const PATIENCE = 600;

type Opened = Awaited<ReturnType<typeof openBenchAt>>;

export type CallScene = {
  readonly scene: Scene;
  readonly server: VoiceServer;
  readonly recorder: Recorder;
  readonly club: Opened;
  /** Another voice server, as good as the first. */
  another(spec?: Partial<VoiceServerSpec>): Promise<VoiceServer>;
  /** Ines goes into the voice channel and has the bot come in. @returns its answer */
  comeIn(): Promise<string>;
};

export type CallSpec = Partial<VoiceServerSpec> & {
  readonly patience?: number;
  /** Listens and speaks instead of the ears that keep what they hear. */
  readonly attend?: Attend;
};

/** A bench with two members, a voice server and ears that keep what they hear. */
export async function withCall(
  play: (call: CallScene) => Promise<void>,
  { patience = PATIENCE, attend: real, ...spec }: CallSpec = {},
): Promise<void> {
  const certificate = await makeCertificate();
  const distrust = trust(certificate);
  const servers: VoiceServer[] = [];
  const another = async (more: Partial<VoiceServerSpec> = {}): Promise<VoiceServer> => {
    const made = await startVoiceServer({ certificate, ...spec, ...more });
    servers.push(made);
    return made;
  };
  try {
    await withScene(async (scene) => {
      const { standIn } = scene;
      const server = await another();
      standIn.voice.host(server);
      const recorder = createRecorder();
      const attend = real ?? recorder.attend;
      const club = await openBenchAt(scene, { options: { attend, patience } });
      await play({
        scene,
        server,
        recorder,
        club,
        another,
        async comeIn() {
          club.ines.voice(VOICE);
          const asked = club.ines.slash("say", {
            channel: "wet-bench",
            options: { sentence: "come in" },
          });
          return (await asked.answer())?.content ?? "";
        },
      });
    });
  } finally {
    distrust();
    for (const server of servers) await server.close();
  }
}

/** What is heard of each member while somebody speaks, up to the end of it. */
export async function heardOf(
  { scene, recorder }: CallScene,
  speak: () => Promise<unknown>,
): Promise<ReadonlyMap<string, Int16Array>> {
  const before = recorder.utterances.length;
  await speak();
  await scene.standIn.until(
    () => recorder.utterances.length > before && recorder.pending === 0,
    "the end of what is said",
  );
  const heard = new Map<string, Int16Array>();
  // A machine that is busy for long makes two speeches of one.
  for (const { name, pcm } of recorder.utterances.slice(before)) {
    heard.set(name, join([heard.get(name) ?? new Int16Array(), pcm]));
  }
  return heard;
}

export { ask };
