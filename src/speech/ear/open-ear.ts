import { Worker } from "node:worker_threads";
import type { PcmForm } from "../audio/to-mono-16k.ts";
import type { EngineChoice } from "../engine.ts";
import type { OwnNames } from "../grammar/own-names.ts";
import type { EarEvent } from "./listener.ts";
import type { EarSetup, FromEar, ToEar } from "./messages.ts";

export type Ear = {
  /** Sound as the device gives it; `at`: monotonic ms when its last sample was taken. */
  feed(samples: Int16Array, at: number): void;
  /** What the bench calls things; the grammar is made anew where it changed. */
  names(names: OwnNames): void;
  press(): void;
  release(at: number): void;
  close(): Promise<void>;
};

export type EarParts = {
  readonly engine: EngineChoice;
  readonly form: PcmForm;
  readonly tell: (event: EarEvent) => void;
  /** The thread's file; another one in tests. */
  readonly worker?: URL;
  /** Monotonic ms. */
  readonly now: () => number;
};

const WORKER = new URL("./ear-worker.ts", import.meta.url);
/** Pieces of sound the thread may be behind before they are dropped: 10 s of 20 ms. */
const MOST_BEHIND = 500;
/** So often within a minute a thread that ended is begun again. */
const MOST_STARTS = 5;
const MINUTE = 60_000;

/**
 * The ear as the program sees it: a thread that is begun again when it ends, with the names it had.
 * Sound it cannot keep up with is dropped, so that memory stays bounded.
 */
export function openEar({ engine, form, tell, worker = WORKER, now }: EarParts): Ear {
  const setup: EarSetup = { engine, form };
  let thread: Worker | undefined;
  let known: OwnNames | undefined;
  let behind = 0;
  let overrun = false;
  let closed = false;
  let starts: number[] = [];

  const send = (message: ToEar): void => thread?.postMessage(message);
  const begin = (): void => {
    starts = [...starts.filter((at) => at > now() - MINUTE), now()];
    behind = 0;
    overrun = false;
    let why = "";
    const fresh = new Worker(worker, { workerData: setup });
    thread = fresh;
    fresh.on("message", (event: FromEar) => {
      if (event.kind === "took") behind -= 1;
      else tell(event);
    });
    fresh.on("error", (error) => {
      why = error instanceof Error ? error.message : String(error);
    });
    fresh.on("exit", () => {
      if (closed || thread !== fresh) return;
      thread = undefined;
      const gone = starts.length >= MOST_STARTS;
      tell({ kind: "fault", line: gone ? goneLine(why) : AGAIN, gone });
      if (!gone) begin();
    });
    if (known !== undefined) send({ kind: "names", names: known });
  };
  begin();

  return {
    feed(samples, at) {
      if (thread === undefined) return;
      if (behind > MOST_BEHIND) {
        // A hole: what was begun makes no sense any more.
        if (!overrun) send({ kind: "drop" });
        overrun = true;
        return;
      }
      overrun = false;
      behind += 1;
      send({ kind: "sound", samples, at });
    },
    names(names) {
      if (JSON.stringify(names) === JSON.stringify(known)) return;
      known = names;
      send({ kind: "names", names });
    },
    press: () => send({ kind: "press" }),
    release: (at) => send({ kind: "release", at }),
    async close() {
      closed = true;
      await thread?.terminate();
    },
  };
}

const AGAIN = "My hearing stopped and starts again. Say that once more.";
const goneLine = (why: string): string =>
  `I cannot hear any more${why === "" ? "" : ` (${why.slice(0, 120)})`}. Type instead; every clock goes on.`;
