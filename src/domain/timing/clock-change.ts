import type { Instant } from "../units/quantity.ts";

/**
 * What a plan says whose clock times go over a change of the clocks, so that a wall clock can finish
 * the job all the same; undefined where there is none between the two instants.
 */
export function clockChange(from: Instant, to: Instant, zone: string): string | undefined {
  const start = Temporal.Instant.fromEpochMilliseconds(Math.floor(from)).toZonedDateTimeISO(zone);
  const change = start.getTimeZoneTransition("next");
  if (change === null || change.epochMilliseconds > to) return undefined;
  const before = change.subtract({ nanoseconds: 1 }).offsetNanoseconds;
  const by = change.offsetNanoseconds - before;
  const old = change.toPlainDateTime().subtract({ nanoseconds: by });
  const way = by < 0 ? "back" : "forward";
  return `The clocks go ${way} at ${minute(old)} to ${minute(change)}: times after that are the new time.`;
}

const minute = (time: { readonly hour: number; readonly minute: number }): string =>
  `${String(time.hour).padStart(2, "0")}:${String(time.minute).padStart(2, "0")}`;
