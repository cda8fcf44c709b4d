import { Worker } from "node:worker_threads";
import type { FliteVoice } from "./flite.ts";
import type { FromMouth, ToMouth } from "./mouth-worker.ts";

/** Turns words into sound; gives nothing where it cannot. */
export type Voice = {
  say(text: string): Promise<Int16Array | undefined>;
  close(): Promise<void>;
};

export type VoiceParts = {
  readonly voice: FliteVoice;
  /** 1 is as recorded, 1.1 a tenth slower. */
  readonly pace: number;
  /** What is wrong, once, as a sentence for people. */
  readonly onFault: (line: string) => void;
  readonly worker?: URL;
};

const WORKER = new URL("./mouth-worker.ts", import.meta.url);
/** Words that take longer than this are not waited for, ms. */
const PATIENCE = 5000;
const MOST_STARTS = 3;

/** The synthesiser in a thread of its own, begun again when it ends. */
export function openVoice({ voice, pace, onFault, worker = WORKER }: VoiceParts): Voice {
  let thread: Worker | undefined;
  let starts = 0;
  let id = 0;
  let closed = false;
  const waiting = new Map<number, (samples: Int16Array | undefined) => void>();

  const settle = (which: number, samples: Int16Array | undefined): void => {
    waiting.get(which)?.(samples);
    waiting.delete(which);
  };
  const begin = (): void => {
    starts += 1;
    const fresh = new Worker(worker);
    thread = fresh;
    let why = "";
    fresh.on("message", (answer: FromMouth) => settle(answer.id, answer.samples));
    fresh.on("error", (error) => {
      why = error instanceof Error ? error.message : String(error);
    });
    fresh.on("exit", () => {
      if (closed || thread !== fresh) return;
      thread = undefined;
      for (const which of [...waiting.keys()]) settle(which, undefined);
      if (starts < MOST_STARTS) return begin();
      onFault(`I cannot speak (${why.slice(0, 120)}). Tones and text go on.`);
    });
    fresh.unref();
  };
  begin();

  return {
    say(text) {
      if (thread === undefined) return Promise.resolve(undefined);
      id += 1;
      const message: ToMouth = { id, text, voice, pace };
      thread.postMessage(message);
      const mine = id;
      return new Promise((done) => {
        const late = setTimeout(() => settle(mine, undefined), PATIENCE);
        waiting.set(mine, (samples) => {
          clearTimeout(late);
          done(samples);
        });
      });
    },
    async close() {
      closed = true;
      await thread?.terminate();
    },
  };
}
