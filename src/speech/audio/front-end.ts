import { openRnnoise } from "./rnnoise.ts";
import { type GateOptions, spectralGate } from "./spectral-gate.ts";

/** Sound freed of noise, 16 kHz, and how likely each 10 ms of it were a voice, 0 to 1. */
export type Cleaned = { readonly samples: Float32Array; readonly voice: readonly number[] };
export type FrontEnd = {
  feed(samples: Float32Array): Cleaned;
  close(): void;
};

/** Measured: see the table in DEVELOPERS.md. */
export const usualGate: GateOptions = { floor: 0.25, taken: 1.1 };

/**
 * Two noise reductions side by side, each for what it does best: RNNoise tells voice from noise,
 * and the gate's gentler sound is what the recogniser understands.
 */
export async function openFrontEnd(options: GateOptions = usualGate): Promise<FrontEnd> {
  const network = await openRnnoise();
  const gate = spectralGate(options);
  return {
    feed: (samples) => ({ samples: gate(samples), voice: network.feed(samples).voice }),
    close: () => network.close(),
  };
}
