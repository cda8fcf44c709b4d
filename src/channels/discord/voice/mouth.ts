import type { Clock } from "../../../platform/clock.ts";
import { type Frames, framesOf } from "./frames.ts";
import type { VoiceLibrary } from "./library.ts";
import type { Mouth, Sound } from "./ports.ts";

export type MouthParts = {
  readonly Opus: VoiceLibrary["Opus"];
  /** Real time. */
  readonly wire: Clock;
  /** Sends a frame of 20 ms now. @returns false while there is no line */
  readonly send: (frame: Buffer) => boolean;
  /** Tells that no more frames come for now. */
  readonly pause: () => void;
  /** Whether nothing may be heard, as in the dark. */
  readonly isMuted: () => boolean;
  readonly onFault: (error: unknown) => void;
};

/** Real ms from one frame to the next. */
const FRAME = 20;
/** Frames later than this, ms, are not caught up with: they would come in one burst. */
const LATE = 100;
/** So many sounds wait, cues and speech each. */
const MOST = 4;
/** After the last frame come so many of silence, or the hearer's program invents some (Discord: Voice). */
const SILENCES = 5;
const SILENCE = Buffer.of(0xf8, 0xff, 0xfe);

type Playing = { readonly kind: "cue" | "speech"; readonly frames: Frames };

/**
 * Plays one sound at a time, a frame each 20 ms by the steady clock. The voice library's own player
 * goes by the clock on the wall, which can be set, and starts a sound up to two frames late.
 */
export function createMouth(parts: MouthParts): Mouth & { close(): void } {
  const { Opus, wire, send, pause, isMuted, onFault } = parts;
  let cues: Sound[] = [];
  let speech: Sound[] = [];
  let playing: Playing | undefined;
  let silences = 0;
  let due = 0;
  let stopTimer: (() => void) | undefined;
  let closed = false;

  const drop = (): void => {
    playing?.frames.close();
    playing = undefined;
  };
  const forget = (): void => {
    drop();
    cues = [];
    speech = [];
  };

  const begin = (): void => {
    const cue = cues.shift();
    const sound = cue ?? speech.shift();
    if (sound === undefined) return;
    playing = { kind: cue === undefined ? "speech" : "cue", frames: framesOf(sound, Opus) };
  };

  /** The next frame of what is to be heard; undefined once there is none. */
  const nextFrame = (): Uint8Array | undefined => {
    for (;;) {
      if (playing === undefined) begin();
      if (playing === undefined) return undefined;
      const frame = playing.frames.next();
      if (frame !== undefined) return frame;
      drop();
    }
  };

  const step = () => {
    stopTimer = undefined;
    if (closed) return;
    try {
      if (isMuted()) forget();
      const frame = nextFrame();
      if (frame !== undefined) silences = SILENCES;
      else if (silences === 0) return pause();
      else silences -= 1;
      if (!send(frame === undefined ? SILENCE : Buffer.from(frame))) {
        // A sound that comes when the line is back would come too late.
        forget();
        silences = 0;
        return;
      }
    } catch (error) {
      drop();
      onFault(error);
    }
    const now = wire.monotonic();
    due = now - due > LATE ? now + FRAME : due + FRAME;
    stopTimer = wire.setTimer(Math.max(0, due - now), step);
  };

  /** The next frame goes out now, whatever was about to. */
  const atOnce = (): void => {
    stopTimer?.();
    due = wire.monotonic();
    step();
  };

  return {
    cue(sound) {
      if (closed || isMuted()) return;
      if (cues.length < MOST) cues.push(sound);
      if (playing?.kind === "cue") return;
      drop();
      atOnce();
    },
    say(sound) {
      if (closed || isMuted()) return;
      speech = [...speech, sound].slice(-MOST);
      if (stopTimer === undefined) atOnce();
    },
    hush() {
      speech = [];
      if (playing?.kind === "speech") drop();
    },
    close() {
      closed = true;
      forget();
      stopTimer?.();
      stopTimer = undefined;
    },
  };
}
