import type { Clock } from "../../../platform/clock.ts";

/** Discord lets a bot identify once in so many ms, for each of its concurrent keys. */
const SPACING = 5000;
/** Clocks of several machines differ a little. */
const MARGIN = 500;
/** Within so much of the start of its slot a shard goes at once; later it waits for the next. */
const ENTRANCE = 400;

/**
 * When a shard may identify, from the wall clock alone, so that processes on several machines keep
 * out of each other's way without talking: time is cut into slots, and the shards of one
 * concurrency key take them in turn.
 *
 * @param shard        which shard, of `count` in all processes
 * @param concurrency  how many may identify at once: shards whose number leaves another rest
 * @returns the wait, ms
 */
export function waitForSlot(
  shard: number,
  count: number,
  concurrency: number,
  now: number,
  spacing = SPACING,
): number {
  const turns = Math.ceil(count / concurrency);
  // Alone on its key nobody is in its way.
  if (turns <= 1) return 0;
  const width = spacing + (MARGIN * spacing) / SPACING;
  const round = width * turns;
  const start = Math.floor(shard / concurrency) * width;
  const into = (((now - start) % round) + round) % round;
  return into <= (ENTRANCE * spacing) / SPACING ? 0 : round - into;
}

/** What the Discord library asks before each of its shards identifies. */
export type Throttler = {
  waitForIdentify(shard: number, signal: AbortSignal): Promise<void>;
};

export type ThrottlerParts = {
  readonly clock: Clock;
  /** Shards of all processes. */
  readonly count: number;
  readonly concurrency: number;
  readonly spacing?: number | undefined;
  /** When a shard of this process, or of the one before it, identified last; Unix ms. */
  readonly before: number | undefined;
  readonly onIdentify: (at: number) => void;
};

/** Also keeps the spacing between two log-ins of one shard of this process, over a restart too. */
export function createThrottler(parts: ThrottlerParts): Throttler {
  const { clock, count, concurrency, spacing = SPACING, before, onIdentify } = parts;
  const last = new Map<number, number>();
  const ago = before === undefined ? Number.POSITIVE_INFINITY : Math.max(0, clock.wall() - before);
  /** What the way there may shorten it by. */
  const rest = spacing * (1 + MARGIN / SPACING);
  /** Until then the process before this one is in the way, by the monotonic clock. */
  const free = clock.monotonic() + Math.max(0, rest - ago);
  return {
    async waitForIdentify(shard, signal) {
      for (;;) {
        signal.throwIfAborted();
        const key = shard % concurrency;
        const rested = (last.has(key) ? (last.get(key) ?? 0) + rest : free) - clock.monotonic();
        const wait = Math.max(
          rested,
          waitForSlot(shard, count, concurrency, clock.wall(), spacing),
        );
        if (wait <= 0) {
          last.set(key, clock.monotonic());
          onIdentify(clock.wall());
          return;
        }
        await pause(clock, wait, signal);
      }
    },
  };
}

function pause(clock: Clock, ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((done, fail) => {
    const stop = clock.setTimer(ms, () => {
      signal.removeEventListener("abort", abort);
      done();
    });
    const abort = (): void => {
      stop();
      fail(signal.reason instanceof Error ? signal.reason : new Error("given up"));
    };
    signal.addEventListener("abort", abort, { once: true });
  });
}
