import { type Season, seasonOf } from "../domain/record/season.ts";
import type { Bench } from "../domain/session/bench.ts";
import { dateOf } from "../domain/timing/clock-text.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { type Reply, refuse } from "../reply/reply.ts";

/** A season without dates is the last so many months, this one included. */
const MONTHS = 12;
/** No picture shows more. */
const MOST_MONTHS = 60;

/** The season from an ISO date on, up to today; a refusal for a time that no picture shows. */
export function seasonAsked(bench: Bench, now: Instant, since: string | undefined): Season | Reply {
  const to = dateOf(now, bench.zone);
  const today = Temporal.PlainDate.from(to);
  const from =
    since ??
    today
      .with({ day: 1 })
      .subtract({ months: MONTHS - 1 })
      .toString();
  if (
    from > to ||
    Temporal.PlainDate.from(from).until(today, { largestUnit: "months" }).months >= MOST_MONTHS
  ) {
    return refuse(
      "no-such-time",
      `I show up to ${MOST_MONTHS} months, up to today. Say season since 1 September 2026.`,
      { say: "That time I cannot show. Name another day." },
    );
  }
  return seasonOf(bench, from, to);
}
