import type { BenchRecord } from "../../../conversation/record.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Passed } from "../../../speech/trust/judge.ts";
import type { Speaker } from "../rooms/room.ts";

/** Samples a second of what is heard. */
export const HEARD_RATE = 16_000;

/** What listens to the members of a bench in a call. Nobody else is ever given to it. */
export type Ears = {
  /**
   * A piece of what a member says, in order.
   *
   * @param pcm  16,000 samples a second, one channel, at most 120 ms; the receiver's own, kept nowhere else
   */
  hear(speaker: Speaker, pcm: Int16Array): void;
  /** The member sends nothing more for now, or has spoken for as long as is heard at once. */
  end(speaker: Speaker): void;
};

/** Sound to be played. */
export type Sound =
  /** Frames of 20 ms each, as an Opus encoder at 48 kHz makes them. */
  | { readonly opus: readonly Uint8Array[] }
  /** One channel. */
  | { readonly pcm: Int16Array; readonly rate: 8000 | 12_000 | 16_000 | 24_000 | 48_000 };

/** What speaks in a call. While there is no line, and in the dark, it is silent. */
export type Mouth = {
  /** At once: speech is cut short by it, and never goes on. A cue waits only for another cue. */
  cue(sound: Sound): void;
  /** When nothing else is heard, in order; of what waits too long the oldest is left out. */
  say(sound: Sound): void;
  /** Ends what is being said, and what waits to be. Cues go on. */
  hush(): void;
};

/** A call of one bench, for whoever listens and speaks in it. */
export type BenchCall = {
  readonly mouth: Mouth;
  record(): BenchRecord;
  /** The benches' time. */
  now(): Instant;
  /** A member's words: taken like a typed message. Question and answer stand in the text channel too. */
  ask(speaker: Speaker, said: Passed): Promise<Reply>;
  /** Says in the text channel what is wrong with hearing or speaking. */
  complain(sentence: string): void;
};

/** Listens and speaks for the length of one call. */
export type Attendant = {
  readonly ears: Ears;
  /** What came due on the bench, at this moment: cues among other things. */
  told(replies: readonly Reply[], bench: Bench): void;
  close(): void;
};

/** Makes what listens and speaks in a call. */
export type Attend = (call: BenchCall) => Attendant | Promise<Attendant>;
