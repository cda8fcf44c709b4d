import { randomBytes } from "node:crypto";
import { once } from "node:events";
import { seal } from "./rtp.ts";
import type { Hall } from "./voice-server.ts";

/** A frame of the bot as people hear it. */
export type Heard = {
  readonly opus: Buffer;
  readonly isSilence: boolean;
  /** Real ms. */
  readonly at: number;
  readonly timestamp: number;
};

export type SpeechSpec = {
  /** Which frames get lost on the way, by number. */
  readonly lose?: (frame: number) => boolean;
  /** Real ms from one frame to the next; 20 as people speak, less to make it short. */
  readonly paceMs?: number;
  /** Leaves out the frames of silence a program sends when its user stops. */
  readonly abrupt?: boolean;
};

/** Somebody in the call. */
export type PersonInCall = {
  readonly user: string;
  /** Speaks; resolves once all of it is sent. */
  speak(frames: readonly Buffer[], spec?: SpeechSpec): Promise<void>;
  leave(): void;
};

const SILENCE = Buffer.of(0xf8, 0xff, 0xfe);
/** Frames of silence after speech (Voice, "Voice Data Interpolation"). */
const SILENCES = 5;

/** Makes people of one call. @param send  a packet on its way to a client */
export function createMouthOf(
  hall: Hall,
  send: (bytes: Buffer, to: { readonly ip: string; readonly port: number }) => void,
): (user: string) => PersonInCall {
  const wrong = randomBytes(32);
  return (user) => {
    hall.nextSsrc += 1;
    const ssrc = hall.nextSsrc;
    let sequence = 100;
    let timestamp = 48_000;
    let counter = 0;

    const frame = (opus: Buffer, isLost: boolean): void => {
      const { bot } = hall;
      sequence += 1;
      timestamp += 960;
      counter += 1;
      if (isLost || bot?.mode === undefined || bot.address === undefined) return;
      const encrypted =
        hall.version === 1 && !opus.equals(SILENCE) ? hall.group.encrypt(user, opus) : opus;
      if (hall.faults.wrongEndToEnd && encrypted.length > 16) {
        // Bytes of the sound itself, not of the footer.
        encrypted[0] = (encrypted[0] ?? 0) ^ 0xff;
      }
      const key = hall.faults.wrongKey ? wrong : bot.key;
      const packet = { sequence, timestamp, ssrc, counter, payload: encrypted };
      send(seal(packet, bot.mode, key), bot.address);
    };

    return {
      user,
      async speak(frames, { lose = () => false, paceMs = 2, abrupt = false } = {}) {
        await announce(hall, { speaking: 1, ssrc, user_id: user });
        const all = abrupt
          ? frames
          : [...frames, ...Array.from({ length: SILENCES }, () => SILENCE)];
        for (const [index, opus] of all.entries()) {
          frame(opus, lose(index));
          await new Promise((resolve) => setTimeout(resolve, paceMs));
        }
      },
      leave() {
        hall.people.delete(user);
        hall.bot?.json(13, { user_id: user });
        if (hall.version === 1) hall.group.leave(user);
      },
    };
  };
}

/** Tells who speaks, and waits until that has arrived: packets of unknown voices are not listened to. */
async function announce({ bot }: Hall, d: object): Promise<void> {
  if (bot === undefined) return;
  bot.json(5, d);
  const { socket } = bot;
  if (socket === undefined || socket.readyState !== 1) return;
  socket.ping();
  await Promise.race([once(socket, "pong"), once(socket, "close")]);
}
