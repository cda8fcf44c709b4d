import { type ChildProcess, spawn } from "node:child_process";
import { createMixer, PIECE } from "../../speech/mouth/mixer.ts";
import { RATE } from "../../speech/mouth/tones.ts";
import type { Device } from "./devices.ts";

export type Loudspeaker = {
  /** A cue cuts speech short; speech waits for what is being said. */
  play(samples: Int16Array, cue: boolean): void;
  hush(): void;
  /** Is anything being said at this moment, or was it a moment ago? */
  speaking(): boolean;
  stop(): void;
};

export type LoudspeakerParts = {
  readonly device: Device;
  /** 0 to 1, looked at for each piece. */
  readonly volume: () => number;
  /** Monotonic ms. */
  readonly now: () => number;
  readonly fault: (line: string, gone: boolean) => void;
};

/** Sound is handed to the player so far ahead of its time, ms: less would stutter. */
const AHEAD = 20;
/** How often it is looked whether the player needs more, ms. */
const LOOK = 10;
/** The echo of what was said is still in the room for so long, ms. */
const ECHO = 250;
const PIECE_MS = (PIECE / RATE) * 1000;
const MOST_STARTS = 5;

/**
 * The player, kept running on a stream of silence, so that a cue begins with the next 20 ms and not
 * when a program has started.
 */
export function openLoudspeaker({ device, volume, now, fault }: LoudspeakerParts): Loudspeaker {
  const [program = "", ...args] = device.command;
  const mixer = createMixer(volume);
  let child: ChildProcess | undefined;
  let starts = 0;
  let stopped = false;
  /** When the sound that was handed over ends. */
  let until = now();
  let spokeAt = Number.NEGATIVE_INFINITY;

  const begin = (): void => {
    starts += 1;
    const fresh = spawn(program, args, { stdio: ["pipe", "ignore", "pipe"] });
    child = fresh;
    let over = false;
    const ended = (why: string): void => {
      if (over || stopped) return;
      over = true;
      const gone = starts >= MOST_STARTS;
      child = undefined;
      fault(gone ? goneLine(why) : AGAIN_LINE, gone);
      if (!gone) begin();
    };
    fresh.stdin.on("error", () => undefined);
    fresh.stderr.resume();
    fresh.on("error", (error) => ended(error.message));
    fresh.on("close", () => ended(""));
  };

  const feed = (): void => {
    const at = now();
    // A pause of our own must not be made up for: what comes next would come late.
    if (until < at) until = at;
    while (until < at + AHEAD) {
      if (!mixer.idle()) spokeAt = until + PIECE_MS;
      const piece = mixer.next();
      until += PIECE_MS;
      // A player that does not take its sound is not waited for.
      if (child?.stdin?.writable === true && child.stdin.writableLength < RATE) {
        child.stdin.write(Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength));
      }
    }
  };
  begin();
  const timer = setInterval(feed, LOOK);

  return {
    play(samples, cue) {
      mixer.add(samples, cue);
      feed();
    },
    hush: () => mixer.hush(),
    speaking: () => !mixer.idle() || now() < spokeAt + ECHO,
    stop() {
      stopped = true;
      clearInterval(timer);
      child?.stdin?.end();
      child?.kill();
    },
  };
}

const AGAIN_LINE = "The loudspeaker stopped; I try it again.";
const goneLine = (why: string): string =>
  `The loudspeaker does not work${why === "" ? "" : ` (${why.slice(0, 120)})`}. Cues come as text.`;
