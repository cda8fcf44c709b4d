import { type Instant, instant } from "../domain/units/quantity.ts";
import type { Clock } from "../platform/clock.ts";
import { createSteadyClock, type SteadyClock } from "../platform/steady-clock.ts";
import type { Reply } from "../reply/reply.ts";
import { createScheduler } from "../scheduler/scheduler.ts";
import type { BenchKeeper } from "./bench-keeper.ts";

export type Bell = {
  now(): Instant;
  /** A message and its answer; the next cue is armed again after it. */
  hear(text: string, who: string, progress?: (reply: Reply) => void): Promise<Reply>;
  /** Resolves once no cue is to come. */
  quiet(): Promise<void>;
  stop(): void;
};

export type BellParts = {
  readonly keeper: BenchKeeper;
  readonly clock: Clock;
  readonly tell: (replies: readonly Reply[], at: Instant) => void;
  /** What went wrong while a cue was given; the bell goes on. */
  readonly onFault: (error: unknown) => void;
  /** Starts the periodic look and returns how to stop it; left out where time is not real. */
  readonly housekeep?: (look: () => void) => () => void;
};

const KEY = "bench";
/** Further apart than this, ms, the wall clock was set. */
const SET = 1000;

/** Keeps one bench in step with real time: gives its cues when they are due, never before. */
export function createBell({ keeper, clock, tell, onFault, housekeep }: BellParts): Bell {
  const steady: SteadyClock = createSteadyClock(clock);
  /** Whole milliseconds, as instants are; rounded down, so that nothing is ever early. */
  const now = (): Instant => instant(Math.floor(steady.now()));
  let waiting: (() => void)[] = [];

  const arm = (): void => {
    scheduler.schedule(KEY, keeper.nextDue());
    // Reminders may lie weeks ahead: only runs are waited for.
    if (keeper.nextCue() === undefined) {
      for (const done of waiting) done();
      waiting = [];
    }
  };

  /** A clock that was set while no run was open is simply right again. */
  const believeWall = (): void => {
    if (keeper.nextCue() === undefined && Math.abs(steady.apart()) > SET) steady.follow();
  };

  const ring = async (by: "tick" | "look" = "tick"): Promise<void> => {
    believeWall();
    const at = now();
    try {
      await keeper[by](at, (replies) => tell(replies, at));
    } catch (error) {
      onFault(error);
    }
    arm();
  };

  const scheduler = createScheduler({
    clock: steady,
    timers: clock,
    onDue: () => void ring(),
    onFault,
  });
  arm();
  const endHousekeeping = housekeep?.(() => void ring("look"));

  return {
    now,
    async hear(text, who, progress) {
      try {
        // What has come due is told before the answer, also when its timer has not gone off yet.
        const [, reply] = await Promise.all([ring(), keeper.hear({ text, who }, now(), progress)]);
        return reply;
      } finally {
        arm();
      }
    },
    quiet: () =>
      keeper.nextCue() === undefined
        ? Promise.resolve()
        : new Promise((done) => {
            waiting.push(done);
          }),
    stop() {
      endHousekeeping?.();
      scheduler.stop();
    },
  };
}
