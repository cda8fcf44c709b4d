import type { Finding } from "./finding.ts";

/** A clock further off than this, ms, is worth mending; a header tells whole seconds. */
const OFF = 5000;
/** Beyond this the difference is told in hours. */
const HOUR = 3_600_000;

/**
 * This machine's clock against the `Date` of an answer.
 *
 * @param date   the header, missing where none was sent
 * @param asked  when the request was made and when its answer came, Unix ms, by this machine
 */
export function examineClock(
  date: string | null,
  asked: { readonly from: number; readonly to: number },
): Finding {
  const what = "clock";
  const theirs = date === null ? Number.NaN : Date.parse(date);
  if (!Number.isFinite(theirs)) {
    return { kind: "note", what, says: "Discord did not tell its time; nothing to compare with." };
  }
  // The header is cut to the second, so that half of one is the better guess.
  const off = (asked.from + asked.to) / 2 - (theirs + 500);
  if (Math.abs(off) <= OFF)
    return { kind: "good", what, says: "within a few seconds of Discord's" };
  const size =
    Math.abs(off) < HOUR
      ? `${Math.round(Math.abs(off) / 1000)} s`
      : `${(Math.abs(off) / HOUR).toFixed(1)} h`;
  return {
    kind: "mend",
    what,
    says: `This machine's clock is ${size} ${off < 0 ? "behind" : "ahead of"} Discord's. Switch on its time synchronisation: clock times in plans and reminders would be wrong by as much.`,
  };
}
