/** How far speech stands above what is heard between it, followed as the stream goes. */
export type Noisiness = {
  /** One frame of raw sound, and whether it is voice. */
  add(frame: Float32Array, voice: boolean): void;
  /** dB of the speech since `begin` above the noise before it. */
  ratio(): number;
  begin(): void;
};

/** The noise is followed down fast and up slowly, share a frame: word ends are no noise. */
const DOWN = 0.1;
const UP = 0.01;

export function createNoisiness(): Noisiness {
  let noise: number | undefined;
  let speech = 0;
  let frames = 0;
  return {
    add(frame, voice) {
      let power = 0;
      for (const sample of frame) power += sample * sample;
      power /= Math.max(1, frame.length);
      if (voice) {
        speech += power;
        frames += 1;
      } else if (noise === undefined) noise = power;
      else if (power < noise) noise += DOWN * (power - noise);
      else noise = Math.min(power, noise * (1 + UP) + UP);
    },
    ratio: () => (frames === 0 ? 0 : 10 * Math.log10((speech / frames + 1) / ((noise ?? 0) + 1))),
    begin() {
      speech = 0;
      frames = 0;
    },
  };
}
