import { schedule } from "node-cron";

/** Once a minute, on the minute. */
const EVERY_MINUTE = "* * * * *";

/**
 * Housekeeping of the living program: looks at the bench once a minute, and is called off by what
 * it returns.
 *
 * Why this and the heap: what is due is data on the bench, and the heap wakes for it to the
 * millisecond. The heap goes by the monotonic clock, so that setting the wall clock moves no cue;
 * but the hour of a daily message is the wall clock's. This look takes the wall clock's word when
 * no run is open, plans the message again, and so catches a wake that was missed because the clock
 * was set or the machine slept. It calls the same tick, which tells nothing twice. Never for cues:
 * a cron goes silent when the clock is set back and comes late under load.
 */
export function startDailyLook(look: () => void): () => void {
  const task = schedule(EVERY_MINUTE, look, {
    name: "daily look",
    noOverlap: true,
    // A minute missed is made up by the next one.
    suppressMissedWarning: true,
    unref: true,
  });
  return () => void task.destroy();
}
