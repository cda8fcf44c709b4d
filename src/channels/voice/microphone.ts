import { type ChildProcess, spawn } from "node:child_process";
import type { Device } from "./devices.ts";

export type Microphone = { stop(): void };

export type MicrophoneParts = {
  readonly device: Device;
  /** Monotonic ms. */
  readonly now: () => number;
  readonly sound: (samples: Int16Array, at: number) => void;
  /** What is wrong, as a sentence for people; `gone` when it is not tried again. */
  readonly fault: (line: string, gone: boolean) => void;
  /** How long until a recorder that ended is begun again, ms. */
  readonly again?: number;
};

/** A recorder that ends is begun again after this, ms, at most so often. */
const AGAIN = 1000;
const MOST_STARTS = 5;

/** Runs the recorder and hands on its sound, whole samples at a time. */
export function startMicrophone({
  device,
  now,
  sound,
  fault,
  again = AGAIN,
}: MicrophoneParts): Microphone {
  const [program = "", ...args] = device.command;
  let child: ChildProcess | undefined;
  let stopped = false;
  let starts = 0;
  let timer: NodeJS.Timeout | undefined;

  const begin = (): void => {
    starts += 1;
    let odd: Buffer = Buffer.alloc(0);
    let why = "";
    const fresh = spawn(program, args, { stdio: ["ignore", "pipe", "pipe"] });
    child = fresh;
    fresh.stdout.on("data", (piece: Buffer) => {
      const all = odd.length === 0 ? piece : Buffer.concat([odd, piece]);
      const even = all.length - (all.length % 2);
      odd = all.subarray(even);
      const samples = new Int16Array(even / 2);
      for (let at = 0; at < samples.length; at += 1) samples[at] = all.readInt16LE(at * 2);
      if (samples.length > 0) sound(samples, now());
    });
    fresh.stderr.on("data", (text: Buffer) => {
      why = text.toString().trim().split("\n").at(-1) ?? why;
    });
    let over = false;
    const ended = (what: string): void => {
      if (over || stopped) return;
      over = true;
      const gone = starts >= MOST_STARTS;
      fault(gone ? goneLine(what) : AGAIN_LINE, gone);
      if (!gone) timer = setTimeout(begin, again);
    };
    fresh.on("error", (error) => ended(error.message));
    fresh.on("close", () => ended(why));
  };
  begin();

  return {
    stop() {
      stopped = true;
      clearTimeout(timer);
      child?.kill();
    },
  };
}

const AGAIN_LINE = "The microphone stopped; I try it again.";
const goneLine = (why: string): string =>
  `The microphone does not work${why === "" ? "" : ` (${why.slice(0, 120)})`}. Type instead; every clock goes on.`;
