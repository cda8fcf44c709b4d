/** 20 ms at 16 kHz: sound goes out in pieces of this size. */
export const PIECE = 320;
/** What is cut short is faded over this many samples, so that it does not click. */
const FADE = 160;

type Item = { readonly samples: Int16Array; readonly cue: boolean; at: number };

export type Mixer = {
  /** Speech waits its turn; a cue cuts speech short, at once, and waits only for other cues. */
  add(samples: Int16Array, cue: boolean): void;
  /** The next piece; silence when there is nothing to say. */
  next(): Int16Array;
  /** Cuts short what is being said, cues excepted. */
  hush(): void;
  idle(): boolean;
};

/** Sounds waiting to be spoken are dropped beyond this: nobody listens to a minute of backlog. */
const MOST_WAITING = 8;

/** Puts sounds one after the other; volume, 0 to 1, is looked at for each piece. */
export function createMixer(volume: () => number): Mixer {
  let playing: Item | undefined;
  let waiting: Item[] = [];
  let tail: Int16Array | undefined;

  const hush = (): void => {
    if (playing !== undefined && !playing.cue) {
      tail = playing.samples.slice(playing.at, playing.at + FADE);
      playing = undefined;
    }
    waiting = waiting.filter(({ cue }) => cue);
  };

  return {
    add(samples, cue) {
      if (cue) hush();
      waiting.push({ samples, cue, at: 0 });
      if (waiting.length > MOST_WAITING) {
        const speech = waiting.findIndex((item) => !item.cue);
        waiting.splice(Math.max(0, speech), 1);
      }
    },
    next() {
      const piece = new Float32Array(PIECE);
      tail?.forEach((sample, at) => {
        piece[at] = sample * (1 - (at + 1) / FADE);
      });
      tail = undefined;
      let filled = 0;
      while (filled < PIECE) {
        playing ??= waiting.shift();
        if (playing === undefined) break;
        const part = playing.samples.subarray(playing.at, playing.at + PIECE - filled);
        for (let at = 0; at < part.length; at += 1) {
          piece[filled + at] = (piece[filled + at] ?? 0) + (part[at] ?? 0);
        }
        filled += part.length;
        playing.at += part.length;
        if (playing.at >= playing.samples.length) playing = undefined;
      }
      const loud = volume();
      return Int16Array.from(piece, (sample) =>
        Math.max(-32_768, Math.min(32_767, Math.round(sample * loud))),
      );
    },
    hush,
    idle: () => playing === undefined && waiting.length === 0 && tail === undefined,
  };
}
