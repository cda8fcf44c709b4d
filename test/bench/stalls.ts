import { monitorEventLoopDelay } from "node:perf_hooks";

/** How long the thread that gives the cues was held by something, ms. */
export type Stall = {
  /** The longest turn of the loop, in time of this thread's processor: what others of the machine do is not in it. */
  readonly turn: number;
  /** The longest delay of the loop by the clock, as a cue would have waited. */
  readonly delay: number;
};

const cpu = (): number => {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
};

/** Watches the loop while something goes on. */
export async function watched<T>(work: () => Promise<T>): Promise<{ stall: Stall; made: T }> {
  const delay = monitorEventLoopDelay({ resolution: 1 });
  let turn = 0;
  let before = cpu();
  const look = (): void => {
    const now = cpu();
    turn = Math.max(turn, now - before);
    before = now;
  };
  // Often enough to tell turns apart, and seldom enough to be no work itself.
  const looking = setInterval(look, 1);
  delay.enable();
  try {
    const made = await work();
    look();
    return { made, stall: { turn, delay: Math.max(0, delay.max / 1e6 - 1) } };
  } finally {
    clearInterval(looking);
    delay.disable();
  }
}
