import { parentPort } from "node:worker_threads";
import { type FliteVoice, loadFlite } from "./flite.ts";

/** To the thread that speaks, and back. */
export type ToMouth = {
  readonly id: number;
  readonly text: string;
  readonly voice: FliteVoice;
  readonly pace: number;
};
export type FromMouth = { readonly id: number; readonly samples: Int16Array | undefined };

const speak = loadFlite();
parentPort?.on("message", ({ id, text, voice, pace }: ToMouth) => {
  let samples: Int16Array | undefined;
  try {
    samples = speak(text, voice, pace).samples;
  } catch {
    samples = undefined;
  }
  const answer: FromMouth = { id, samples };
  parentPort?.postMessage(answer);
});
