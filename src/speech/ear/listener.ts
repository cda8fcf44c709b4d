import type { FrontEnd } from "../audio/front-end.ts";
import { levelOf, TORN, toInt16 } from "../audio/level.ts";
import { createNoisiness } from "../audio/noisiness.ts";
import type { Engine } from "../engine.ts";
import { type Endpoint, quiet, step, usualEndpoint } from "./endpoint.ts";

/** What an ear has to tell. Instants are ms of the caller's monotonic clock. */
export type EarEvent =
  | { readonly kind: "ready" }
  /** Somebody began to speak; nothing is known of the words yet. */
  | { readonly kind: "began" }
  | {
      readonly kind: "heard";
      readonly text: string;
      readonly score: number;
      /** When the last voice of it was heard. */
      readonly endedAt: number;
      /** The key was held: it was meant for the bench. */
      readonly byKey: boolean;
      readonly torn: boolean;
      /** There was noise beside it, so that it is less sure than its score says. */
      readonly noisy: boolean;
    }
  | { readonly kind: "too-long" }
  /** A sentence for people: hearing stopped, starts again, or cannot work. */
  | { readonly kind: "fault"; readonly line: string; readonly gone: boolean };

export type Listener = {
  /** 16 kHz, one channel; `at`: when its last sample was taken. */
  feed(samples: Float32Array, at: number): Promise<void>;
  /** The key: from now on it is meant for the bench, whatever the gate thinks. */
  press(): void;
  release(at: number): Promise<void>;
  /** What was begun is forgotten: the sound has a hole. */
  drop(): void;
};

/** Samples of 10 ms. */
const FRAME = 160;
/** Sound kept from before a voice is noticed, in frames: its first consonant is in there. */
const BEFORE = 40;
/** Speech less than this above the noise, dB, is heard in noise. */
const NOISY = 28;
/** After the key, so many frames may pass before the first voice. */
const KEY_PATIENCE = 300;

function joined(one: Float32Array, other: Float32Array): Float32Array<ArrayBuffer> {
  const all = new Float32Array(one.length + other.length);
  all.set(one);
  all.set(other, one.length);
  return all;
}

/**
 * From sound to utterances: noise reduction, where speech begins and ends, and the engine fed as it
 * goes. Keeps the sound of one utterance at most, and only until it has been heard.
 */
export function createListener(
  frontEnd: FrontEnd,
  engine: Engine,
  tell: (event: EarEvent) => void,
): Listener {
  let endpoint: Endpoint = quiet;
  let pending = new Float32Array(0);
  let before: Float32Array[] = [];
  let speaking = false;
  let byKey = false;
  let torn = 0;
  const noisiness = createNoisiness();
  let raw = new Float32Array(0);

  const begin = (): void => {
    engine.begin();
    for (const frame of before) engine.feed(toInt16(frame));
    before = [];
    speaking = true;
    torn = 0;
    noisiness.begin();
    tell({ kind: "began" });
  };
  const end = async (endedAt: number): Promise<void> => {
    speaking = false;
    const key = byKey;
    byKey = false;
    endpoint = quiet;
    const { text, score } = await engine.end();
    tell({
      kind: "heard",
      text,
      score,
      endedAt,
      byKey: key,
      torn: torn > TORN,
      noisy: noisiness.ratio() < NOISY,
    });
  };

  const frame = async (samples: Float32Array, voice: number, at: number): Promise<void> => {
    if (speaking) engine.feed(toInt16(samples));
    else {
      before.push(samples);
      if (before.length > BEFORE) before.shift();
    }
    const { at: next, event } = step(endpoint, { voice });
    endpoint = next;
    if (event === "began") begin();
    else if (event === "ended") await end(at - usualEndpoint.ends * 10);
    else if (event === "too-long") {
      speaking = false;
      byKey = false;
      await engine.end();
      tell({ kind: "too-long" });
    }
  };

  return {
    async feed(samples, at) {
      torn = Math.max(torn, levelOf(samples).clipped);
      const { samples: clean, voice } = frontEnd.feed(samples);
      const all = joined(pending, clean);
      const heard = joined(raw, samples);
      let used = 0;
      for (const likely of voice) {
        if (used + FRAME > all.length) break;
        noisiness.add(heard.subarray(used, used + FRAME), likely > 0.7);
        const left = (all.length - used - FRAME) / 16;
        await frame(all.slice(used, used + FRAME), likely, at - left);
        used += FRAME;
      }
      pending = all.slice(used);
      raw = heard.slice(used);
    },
    press() {
      byKey = true;
      if (speaking) return;
      endpoint = { phase: "speech", recent: [], length: 0, silence: -KEY_PATIENCE };
      begin();
    },
    async release(at) {
      if (byKey && speaking) await end(at);
    },
    drop() {
      before = [];
      pending = new Float32Array(0);
      raw = new Float32Array(0);
      endpoint = quiet;
      if (speaking) void engine.end();
      speaking = false;
      byKey = false;
    },
  };
}
