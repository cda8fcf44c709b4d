import { instant } from "../../src/domain/units/quantity.ts";
import type { Clock } from "../../src/platform/clock.ts";

export type FakeClock = Clock & {
  /** Lets `ms` go by; timers go off in order, each at its own instant. */
  advance(ms: number): void;
  /** Like `advance`, and after each timer lets promises and immediates have their turn. */
  pass(ms: number): Promise<void>;
  /** Sets the wall clock forwards or backwards; nothing else notices. */
  set(ms: number): void;
  /** Sleeps: the wall clock and the uptime go on, the monotonic clock and the timers stand still. */
  suspend(ms: number): void;
  /** The event loop is busy: time goes by, and timers that came due go off late, at its end. */
  stall(ms: number): void;
  /** Milliseconds that have really gone by, sleep included: what no setting of a clock changes. */
  elapsed(): number;
  /** How many timers are waiting. */
  timers(): number;
};

type Timer = { readonly at: number; readonly done: () => void };

/** A clock that moves by hand. `early` makes timers go off that many ms before their time. */
export function createFakeClock(
  start = instant(Date.UTC(2026, 10, 28, 9)),
  { early = 0 } = {},
): FakeClock {
  let wall: number = start;
  let monotonic = 1000;
  let uptime = 50_000;
  let waiting: Timer[] = [];

  const move = (ms: number): void => {
    wall += ms;
    monotonic += ms;
    uptime += ms;
  };

  /** The first timer due by `end`, off the list. */
  const take = (end: number): Timer | undefined => {
    let first: Timer | undefined;
    for (const timer of waiting) {
      if (timer.at <= end && (first === undefined || timer.at < first.at)) first = timer;
    }
    waiting = waiting.filter((timer) => timer !== first);
    return first;
  };

  const next = (end: number): boolean => {
    const timer = take(end);
    move(Math.max(0, (timer?.at ?? end) - monotonic));
    timer?.done();
    return timer !== undefined;
  };

  return {
    wall: () => instant(wall),
    monotonic: () => monotonic,
    uptime: () => Math.floor(uptime / 10) * 10,
    setTimer(ms, done) {
      // Some time always goes by, so that one who waits again and again gets there.
      const timer = { at: monotonic + Math.max(0.1, ms - early), done };
      waiting.push(timer);
      return () => {
        waiting = waiting.filter((other) => other !== timer);
      };
    },
    advance(ms) {
      const end = monotonic + ms;
      while (next(end));
    },
    async pass(ms) {
      const end = monotonic + ms;
      do {
        await new Promise((resolve) => setImmediate(resolve));
      } while (next(end));
    },
    set(ms) {
      wall += ms;
    },
    suspend(ms) {
      wall += ms;
      uptime += ms;
    },
    stall(ms) {
      move(ms);
      const end = monotonic;
      while (next(end));
    },
    elapsed: () => uptime - 50_000,
    timers: () => waiting.length,
  };
}
