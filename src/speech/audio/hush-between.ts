import type { FrontEnd } from "./front-end.ts";

/** Samples of 10 ms. */
const FRAME = 160;
/** A frame surer of a voice than this belongs to speech, and so do these many before and behind it. */
const VOICE = 0.3;
const BEFORE = 10;
const BEHIND = 12;
/** What is left of the sound between words. */
const LEFT = 0.03;

type Heard = { readonly samples: Float32Array; readonly voice: number };
const silence: Heard = { samples: new Float32Array(FRAME), voice: 0 };

/**
 * What noise reduction leaves between words is turned down to nearly nothing, or the recogniser
 * makes short words of it: "north" became "north eight", "in" became "in east". The sound comes a
 * tenth of a second later, since a word begins before it is noticed; where a voice is, is told at
 * once, so that the end of speech is known no later.
 */
export function hushBetween(frontEnd: FrontEnd): FrontEnd {
  let pending = new Float32Array(0);
  const waiting: Heard[] = Array.from({ length: BEFORE }, () => silence);
  let since = BEHIND + 1;
  let gain = LEFT;

  const next = ({ samples, voice }: Heard): Float32Array => {
    since = voice > VOICE ? 0 : since + 1;
    const near = since <= BEHIND || waiting.slice(0, BEFORE).some((one) => one.voice > VOICE);
    const [from, to] = [gain, near ? 1 : LEFT];
    gain = to;
    return samples.map((sample, at) => sample * (from + ((to - from) * at) / FRAME));
  };

  return {
    feed(samples) {
      const cleaned = frontEnd.feed(samples);
      const all = new Float32Array(pending.length + cleaned.samples.length);
      all.set(pending);
      all.set(cleaned.samples, pending.length);
      let used = 0;
      for (const voice of cleaned.voice) {
        if (used + FRAME > all.length) break;
        waiting.push({ samples: all.slice(used, used + FRAME), voice });
        used += FRAME;
      }
      pending = all.slice(used);
      const ready = Math.max(0, waiting.length - BEFORE);
      const made = new Float32Array(ready * FRAME);
      for (let at = 0; at < ready; at += 1) {
        const one = waiting.shift();
        if (one === undefined) break;
        made.set(next(one), at * FRAME);
      }
      return { samples: made, voice: cleaned.voice.slice(0, ready) };
    },
    close: () => frontEnd.close(),
  };
}
