import { type Instant, instant } from "../domain/units/quantity.ts";
import type { Clock } from "./clock.ts";

/** What was noticed about time itself: the machine slept, or its clock was set. In milliseconds. */
export type ClockNote =
  | { readonly kind: "suspended"; readonly ms: number }
  | { readonly kind: "set"; readonly ms: number };

/** The three times, read together. */
type Reading = {
  readonly wall: Instant;
  readonly monotonic: number;
  readonly uptime: number;
};

/** Where the count began, the sleep added since, and the last reading it took in. */
type Count = { readonly start: Reading; readonly asleep: number; readonly last: Reading };

/**
 * Uptime comes in steps of 10 ms on Linux and elsewhere to the second: less than this is noise.
 * Readings are compared one with the next, since on some systems the two drift apart slowly.
 */
const SLEEP_NOISE = 1500;
/** Taken off a sleep, so that rounding can never make anything early. */
const SLEEP_ROUNDING = 20;
/** The wall clock and the count, read one after the other, differ by less than this. */
const SET_NOISE = 250;

const beginCount = (start: Reading): Count => ({ start, asleep: 0, last: start });

const nowOf = ({ start, asleep }: Count, { monotonic }: Reading): Instant =>
  instant(start.wall + (monotonic - start.monotonic) + asleep);

/**
 * Takes a reading into account. Time goes on with the monotonic clock, so that setting the wall
 * clock, by any amount in either direction, moves no cue of a process that lives. A suspend is
 * told from a set clock by the uptime, which counts sleep: the sleep is added, and what came due
 * meanwhile is late.
 */
function takeIn(count: Count, reading: Reading): { count: Count; notes: ClockNote[] } {
  const notes: ClockNote[] = [];
  const awake = reading.monotonic - count.last.monotonic;
  const slept = reading.uptime - count.last.uptime - awake;
  const counted = slept > SLEEP_NOISE ? slept - SLEEP_ROUNDING : 0;
  if (counted > 0) notes.push({ kind: "suspended", ms: counted });
  const set = reading.wall - count.last.wall - awake - counted;
  if (Math.abs(set) > (counted > 0 ? SLEEP_NOISE : SET_NOISE)) notes.push({ kind: "set", ms: set });
  return { count: { ...count, asleep: count.asleep + counted, last: reading }, notes };
}

export type SteadyClock = {
  /** The instant by which everything is timed. Never goes back, except by `follow`. */
  now(): Instant;
  /** How far the wall clock is ahead of `now`, in ms: 0, but for noise, unless it was set. */
  apart(): number;
  /**
   * Takes the wall clock's word from here on. For a moment when no stage is running: a machine
   * that began with a wrong date is then right as soon as its date is.
   */
  follow(): void;
};

export function createSteadyClock(
  clock: Pick<Clock, "wall" | "monotonic" | "uptime">,
  note: (what: ClockNote) => void = () => undefined,
): SteadyClock {
  const read = (): Reading => ({
    wall: clock.wall(),
    monotonic: clock.monotonic(),
    uptime: clock.uptime(),
  });
  let count = beginCount(read());
  const take = (): Reading => {
    const reading = read();
    const taken = takeIn(count, reading);
    count = taken.count;
    for (const what of taken.notes) note(what);
    return reading;
  };
  return {
    now() {
      const reading = take();
      return nowOf(count, reading);
    },
    apart() {
      const reading = take();
      return reading.wall - nowOf(count, reading);
    },
    follow() {
      count = beginCount(read());
    },
  };
}
