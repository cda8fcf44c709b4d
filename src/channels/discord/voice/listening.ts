import type { AudioReceiveStream, VoiceReceiver } from "@discordjs/voice";
import type { Clock } from "../../../platform/clock.ts";
import type { Speaker } from "../rooms/room.ts";
import type { VoiceLibrary } from "./library.ts";
import { type Ears, HEARD_RATE } from "./ports.ts";

export type ListeningParts = {
  readonly receiver: VoiceReceiver;
  readonly library: VoiceLibrary;
  /** Real time. */
  readonly wire: Clock;
  readonly ears: Ears;
  /** A member of the bench; undefined for everybody else, who is not listened to. */
  readonly speakerOf: (user: string) => Speaker | undefined;
  /** What a member sends cannot be made out, for so long that it will not mend by itself. */
  readonly onDeaf: () => void;
};

/** Nothing for so long, ms, and the member has stopped. */
const PAUSE = 200;
/** What programs send when their user stops: so many of these, and the speech is over. */
const SILENCE = Buffer.of(0xf8, 0xff, 0xfe);
const SILENCES = 5;
/** Longer than this, in samples, nobody is heard without a break. */
const LONGEST = 15 * HEARD_RATE;
/** So many people are listened to at once. */
const MOST = 16;
/** So many packets in a row that cannot be decrypted: about two seconds of speech. */
const BAD_PACKETS = 100;
/** Somebody speaks for so long, ms, and nothing of it arrives. */
const DEAF_AFTER = 5000;
/** Bytes of an Opus packet. */
const LARGEST = 1500;

type Voice = {
  readonly decoder: InstanceType<VoiceLibrary["Opus"]>;
  stream: AudioReceiveStream;
  speaker: Speaker;
  /** Samples since the last end; 0 while they are silent. */
  heard: number;
  at: number;
  silences: number;
  bad: number;
  stopTimer: (() => void) | undefined;
  stopWatch: (() => void) | undefined;
};

/**
 * Hands what the members of a bench say to the ears, decoded, frame by frame. Sound is held for no
 * longer than it takes to hand it over; of others nothing is even decrypted.
 */
export function listenTo(parts: ListeningParts): { close(): void } {
  const { receiver, library, wire, ears, speakerOf, onDeaf } = parts;
  const { voice: kit, Opus } = library;
  const voices = new Map<string, Voice>();
  let closed = false;

  const end = (one: Voice): void => {
    one.stopTimer?.();
    one.stopTimer = undefined;
    if (one.heard === 0) return;
    one.heard = 0;
    ears.end(one.speaker);
  };

  const wait = (one: Voice, ms: number): void => {
    one.stopTimer = wire.setTimer(ms, () => {
      // What came in while the process was busy is read first.
      setImmediate(() => {
        one.stopTimer = undefined;
        if (closed) return;
        const left = one.at + PAUSE - wire.monotonic();
        if (left > 0) wait(one, left);
        else end(one);
      });
    });
  };

  const letGo = (user: string): void => {
    const one = voices.get(user);
    if (one === undefined) return;
    voices.delete(user);
    end(one);
    one.stopWatch?.();
    one.stream.destroy();
    one.decoder.delete();
  };

  const take = (user: string, packet: Buffer) => {
    const one = voices.get(user);
    if (one === undefined || packet.length === 0 || packet.length > LARGEST) return;
    // Whoever was taken off the list is not heard from that moment on.
    const speaker = speakerOf(user);
    if (speaker === undefined) return letGo(user);
    const isSilence = packet.equals(SILENCE);
    one.at = wire.monotonic();
    one.silences = isSilence ? one.silences + 1 : 0;
    if (isSilence && one.heard === 0) return;
    const pcm = decode(one.decoder, packet);
    if (pcm === undefined) return;
    one.speaker = speaker;
    one.bad = 0;
    one.heard += pcm.length;
    ears.hear(speaker, pcm);
    if (one.heard >= LONGEST || one.silences >= SILENCES) end(one);
    else if (one.stopTimer === undefined) wait(one, PAUSE);
  };

  const attach = (user: string): AudioReceiveStream => {
    const stream = receiver.subscribe(user, { end: { behavior: kit.EndBehaviorType.Manual } });
    stream.on("data", (packet: Buffer) => take(user, packet));
    stream.on("error", () => {
      const one = voices.get(user);
      if (one === undefined) return;
      one.bad += 1;
      if (one.bad === BAD_PACKETS) onDeaf();
    });
    // A packet that cannot be decrypted ends the stream: without a new one they are never heard again.
    stream.once("close", () => {
      const one = voices.get(user);
      if (!closed && one !== undefined && one.stream === stream) one.stream = attach(user);
    });
    return stream;
  };

  const watch = (user: string, one: Voice) => {
    const before = one.at;
    one.stopWatch?.();
    one.stopWatch = wire.setTimer(DEAF_AFTER, () => {
      one.stopWatch = undefined;
      if (one.at === before && receiver.speaking.users.has(user)) onDeaf();
    });
  };

  const onStart = (user: string) => {
    const speaker = speakerOf(user);
    if (speaker === undefined) return letGo(user);
    const known = voices.get(user);
    if (known !== undefined) return watch(user, known);
    if (voices.size >= MOST) return;
    const one: Voice = {
      decoder: new Opus(HEARD_RATE, 1, Opus.Application.VOIP),
      stream: attach(user),
      speaker,
      heard: 0,
      at: 0,
      silences: 0,
      bad: 0,
      stopTimer: undefined,
      stopWatch: undefined,
    };
    voices.set(user, one);
    watch(user, one);
  };

  receiver.speaking.on("start", onStart);
  return {
    close() {
      closed = true;
      receiver.speaking.off("start", onStart);
      for (const user of [...voices.keys()]) letGo(user);
    },
  };
}

/** @returns samples of their own; undefined for a packet that is no Opus */
function decode(decoder: Voice["decoder"], packet: Buffer): Int16Array | undefined {
  try {
    const bytes = decoder.decode(packet);
    return new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
  } catch {
    return undefined;
  }
}
