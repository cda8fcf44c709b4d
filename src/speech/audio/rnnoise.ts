import type { FrontEnd } from "./front-end.ts";
import { downsampler, upsampler } from "./resample.ts";

/** One frame of RNNoise: 10 ms at 48 kHz. */
const FRAME = 480;

/**
 * RNNoise (Valin 2018): a small network that follows speech in 22 bands. It works at 48 kHz; the
 * stream of 16 kHz is led up and down again. Samples are of the size of 16-bit ones.
 *
 * @throws when its package is not there
 */
export async function openRnnoise(): Promise<FrontEnd> {
  const { default: load } = await import("@echogarden/rnnoise-wasm");
  const wasm = await load();
  const state = wasm._rnnoise_create(0);
  const buffer = wasm._malloc(FRAME * 4);
  const up = upsampler(3);
  const down = downsampler(3);
  let pending = new Float32Array(0);
  return {
    feed(samples) {
      const fresh = up(samples);
      const all = new Float32Array(pending.length + fresh.length);
      all.set(pending);
      all.set(fresh, pending.length);
      const whole = Math.floor(all.length / FRAME);
      const made = new Float32Array(whole * FRAME);
      const voice: number[] = [];
      for (let at = 0; at < whole; at += 1) {
        wasm.HEAPF32.set(all.subarray(at * FRAME, (at + 1) * FRAME), buffer / 4);
        voice.push(wasm._rnnoise_process_frame(state, buffer, buffer));
        made.set(wasm.HEAPF32.subarray(buffer / 4, buffer / 4 + FRAME), at * FRAME);
      }
      pending = all.slice(whole * FRAME);
      return { samples: down(made), voice };
    },
    close() {
      wasm._rnnoise_destroy(state);
      wasm._free(buffer);
    },
  };
}
