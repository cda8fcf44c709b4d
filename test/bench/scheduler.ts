import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { systemClock } from "../../src/platform/clock.ts";
import { createSteadyClock } from "../../src/platform/steady-clock.ts";
import { createScheduler } from "../../src/scheduler/scheduler.ts";
import { seeded } from "../support/seeded.ts";
import { percentile } from "./percentile.ts";

export type Punctuality = {
  readonly cues: number;
  /** How many fired before their instant. */
  readonly early: number;
  /** In ms late. */
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
};

const CUES = 10_000;
const SPREAD_MS = 5000;

/** Reading two clocks takes time: a pair that lies this close together is taken as one. */
export const TOLERANCE_MS = 0.02;

/** The wall clock and the monotonic one, read as one. */
export function bracket(read: () => Instant): { start: number; now: Instant } {
  for (let attempt = 0; attempt < 1000; attempt += 1) {
    const start = performance.now();
    const now = read();
    if (performance.now() - start < TOLERANCE_MS) return { start, now };
  }
  throw new Error("This machine is too busy to measure anything.");
}

/** Arms many cues over five seconds and measures when each is given, by the monotonic clock. */
export async function benchScheduler(cues = CUES, spreadMs = SPREAD_MS): Promise<Punctuality> {
  const clock = createSteadyClock(systemClock);
  const chance = seeded(1);
  const dues = new Map<string, number>();
  const late: number[] = [];
  const done = Promise.withResolvers<void>();
  const scheduler = createScheduler({
    clock,
    timers: systemClock,
    onDue(key) {
      late.push(performance.now() - (dues.get(key) ?? 0));
      if (late.length === cues) done.resolve();
    },
    onFault: done.reject,
  });
  const { start, now } = bracket(() => clock.now());
  for (let cue = 0; cue < cues; cue += 1) {
    const after = 100 + chance() * spreadMs;
    dues.set(String(cue), start + after);
    scheduler.schedule(String(cue), instant(now + after));
  }
  await done.promise;
  scheduler.stop();
  const early = late.filter((ms) => ms < -TOLERANCE_MS).length;
  return {
    cues,
    early,
    p50: percentile(late, 50),
    p99: percentile(late, 99),
    max: percentile(late, 100),
  };
}
