import type { Hosts } from "../views/message.ts";
import type { World } from "../world.ts";
import type { Session } from "./session.ts";

export type Gateway = {
  readonly world: World;
  readonly hosts: Hosts;
  readonly sessions: Map<string, Session>;
  /** Every identify, by real ms, accepted or not. */
  readonly identifies: Identified[];
  /** Real ms between identifies of one rate limit key. */
  readonly spacingMs: number;
  /** Real ms of the window of 120 sends. */
  readonly sendWindowMs: number;
  /** Heartbeats go unanswered, as on a dead line. */
  deaf: boolean;
  readonly monotonic: () => number;
};

export type Identified = {
  readonly shard: readonly [number, number];
  readonly at: number;
  readonly accepted: boolean;
};

/** Closes the connection at hand with a code. */
export type Close = (code: number, why: string) => void;
