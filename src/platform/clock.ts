import { uptime } from "node:os";
import { type Instant, instant } from "../domain/units/quantity.ts";

/** The only door to time. */
export type Clock = {
  /** What the machine believes the time is; it can be set, forwards and backwards. */
  wall(): Instant;
  /** In milliseconds from an arbitrary start; never steps, stands still while suspended on Linux. */
  monotonic(): number;
  /** In milliseconds from an arbitrary start; never steps, goes on while suspended; coarse (10 ms). */
  uptime(): number;
  /** Calls back once after about `ms`, at times a little early; returns how to call it off. */
  setTimer(ms: number, done: () => void): () => void;
};

export const systemClock: Clock = {
  wall: () => instant(Date.now()),
  monotonic: () => performance.now(),
  uptime: () => uptime() * 1000,
  setTimer(ms, done) {
    const timer = setTimeout(done, ms);
    return () => clearTimeout(timer);
  },
};
