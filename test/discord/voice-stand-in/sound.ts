import { abs, fft } from "mathjs";
import OpusScript from "opusscript";

/** Samples of a sine. @param hz  its frequency; @param seconds  how long; @param rate  samples a second */
export function sine(hz: number, seconds: number, rate = 48_000): Int16Array {
  return Int16Array.from({ length: Math.round(seconds * rate) }, (_, index) =>
    Math.round(12_000 * Math.sin((2 * Math.PI * hz * index) / rate)),
  );
}

const FRAME_SECONDS = 0.02;

/** Samples as Opus frames of 20 ms. @param channels  as interleaved in `pcm` */
export function toOpus(pcm: Int16Array, rate: 16_000 | 48_000 = 48_000, channels = 1): Buffer[] {
  const encoder = new OpusScript(rate, channels, OpusScript.Application.AUDIO);
  const samples = rate * FRAME_SECONDS;
  const step = samples * channels;
  const frames: Buffer[] = [];
  for (let from = 0; from + step <= pcm.length; from += step) {
    const part = pcm.slice(from, from + step);
    frames.push(encoder.encode(Buffer.from(part.buffer), samples));
  }
  encoder.delete();
  return frames;
}

/** Opus frames as samples of one channel. */
export function fromOpus(frames: readonly Buffer[], rate: 16_000 | 48_000 = 48_000): Int16Array {
  const decoder = new OpusScript(rate, 1, OpusScript.Application.AUDIO);
  const parts = frames.map((frame) => decoder.decode(frame));
  decoder.delete();
  const bytes = Buffer.concat(parts);
  return new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
}

const WINDOW = 4096;

/** The strongest frequency in the middle of some sound, Hz, by mathjs' Fourier transform. */
export function pitch(pcm: Int16Array, rate: number): number {
  const length = Math.min(WINDOW, 2 ** Math.floor(Math.log2(pcm.length)));
  const from = Math.floor((pcm.length - length) / 2);
  const hann = (index: number): number => 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / length);
  const windowed = [...pcm.subarray(from, from + length)].map((one, at) => one * hann(at));
  const power = fft(windowed)
    .slice(0, length / 2)
    .map((one) => Number(abs(one)));
  const best = power.indexOf(Math.max(...power));
  return (best * rate) / length;
}

/** Root mean square of some samples: near 0 is silence. */
export const loudness = (pcm: Int16Array): number =>
  Math.sqrt(pcm.reduce((sum, one) => sum + one * one, 0) / Math.max(1, pcm.length));
