import type { Instant } from "../domain/units/quantity.ts";
import type { Clock } from "../platform/clock.ts";
import type { SteadyClock } from "../platform/steady-clock.ts";
import { createHeap } from "./heap.ts";
import { planWake } from "./plan-wake.ts";

export type SchedulerOptions = {
  readonly clock: SteadyClock;
  readonly timers: Pick<Clock, "setTimer">;
  /**
   * A key has come due, and is forgotten: schedule it again for its next instant. Called in the
   * order of the instants, never early.
   */
  readonly onDue: (key: string, now: Instant) => void;
  /** Gets what `onDue` threw; the other keys are served all the same. */
  readonly onFault: (error: unknown) => void;
};

export type Scheduler = {
  /** Sets when a key is next due, in place of what was set before; undefined takes it out. */
  schedule(key: string, due: Instant | undefined): void;
  /** How many keys are waiting. */
  size(): number;
  /** Forgets everything and stops waiting. */
  stop(): void;
};

/**
 * One heap of keys, one timer for the earliest. It keeps nothing that is not elsewhere: after a
 * restart each bench computes when it is next due and says so again.
 */
export function createScheduler({ clock, timers, onDue, onFault }: SchedulerOptions): Scheduler {
  const heap = createHeap();
  let callOff: (() => void) | undefined;
  let armedFor: Instant | undefined;
  let firing = false;
  let stopped = false;

  const disarm = (): void => {
    callOff?.();
    callOff = undefined;
    armedFor = undefined;
  };

  const arm = (): void => {
    const first = heap.first();
    if (firing || stopped || (callOff !== undefined && armedFor === first?.at)) return;
    disarm();
    const wake = planWake(first?.at, clock.now());
    if (wake.kind === "idle") return;
    armedFor = first?.at;
    callOff = timers.setTimer(wake.kind === "wait" ? wake.ms : 0, woken);
  };

  const woken = (): void => {
    disarm();
    firing = true;
    const now = clock.now();
    // A key that is due again at once waits for the next turn, so that it cannot keep the process.
    for (let turns = heap.size(); turns > 0; turns -= 1) {
      const first = heap.first();
      if (stopped || first === undefined || planWake(first.at, now).kind !== "fire") break;
      heap.remove(first.key);
      fire(first.key, now);
    }
    firing = false;
    arm();
  };

  const fire = (key: string, now: Instant): void => {
    try {
      onDue(key, now);
    } catch (error) {
      onFault(error);
    }
  };

  return {
    schedule(key, due) {
      if (stopped) return;
      if (due === undefined) heap.remove(key);
      else heap.set(key, due);
      arm();
    },
    size: () => heap.size(),
    stop() {
      stopped = true;
      disarm();
    },
  };
}
