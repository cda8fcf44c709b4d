import { createRequire } from "node:module";
import { RATE } from "./tones.ts";

/** Sound as Discord and files of ours take it: packets of 20 ms, 48 kHz, two channels. */
export type OpusPackets = readonly Uint8Array[];

export type OpusCoder = {
  encode(samples: Int16Array): OpusPackets;
  decode(packets: OpusPackets): Int16Array;
  close(): void;
};

const FRAME = 960;
/** 48 kHz from 16 kHz. */
const TIMES = 48_000 / RATE;

/**
 * Opus in WebAssembly. @throws when its package is not there
 */
export function openOpus(): OpusCoder {
  const Opus = createRequire(import.meta.url)("opusscript") as typeof import("opusscript");
  const coder = new Opus(48_000, 2, Opus.Application.AUDIO);
  return {
    encode(samples) {
      const per = FRAME / TIMES;
      const packets: Uint8Array[] = [];
      for (let from = 0; from < samples.length; from += per) {
        const frame = Buffer.alloc(FRAME * 4);
        for (let at = 0; at < FRAME; at += 1) {
          const whole = from + Math.floor(at / TIMES);
          const here = samples[whole] ?? 0;
          const next = samples[whole + 1] ?? here;
          const value = Math.round(here + ((next - here) * (at % TIMES)) / TIMES);
          frame.writeInt16LE(value, at * 4);
          frame.writeInt16LE(value, at * 4 + 2);
        }
        packets.push(Uint8Array.from(coder.encode(frame, FRAME)));
      }
      return packets;
    },
    decode(packets) {
      const made = packets.map((packet) => {
        const pcm = coder.decode(Buffer.from(packet));
        return Int16Array.from({ length: FRAME / TIMES }, (_, at) =>
          pcm.readInt16LE(at * TIMES * 4),
        );
      });
      const all = new Int16Array(made.length * (FRAME / TIMES));
      made.forEach((frame, index) => {
        all.set(frame, index * (FRAME / TIMES));
      });
      return all;
    },
    close: () => coder.delete(),
  };
}
