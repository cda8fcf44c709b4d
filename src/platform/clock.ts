import { type Instant, instant } from "../domain/units/quantity.ts";

/** The only door to time. `monotonic` is in milliseconds from an arbitrary start and never steps. */
export type Clock = {
  wall(): Instant;
  monotonic(): number;
  /** Calls back once after at least `ms`; returns a function that calls it off. */
  setTimer(ms: number, done: () => void): () => void;
};

export const systemClock: Clock = {
  wall: () => instant(Date.now()),
  monotonic: () => performance.now(),
  setTimer(ms, done) {
    const timer = setTimeout(done, ms);
    return () => clearTimeout(timer);
  },
};
