import { showMoment, showTime } from "../domain/reminders/calendar.ts";
import type { Bench } from "../domain/session/bench.ts";
import { isoInstant, showDate } from "../domain/timing/clock-text.ts";
import { answer, type Reply } from "../reply/reply.ts";

const ofMinutes = (minutes: number): string =>
  showTime({ hour: Math.floor(minutes / 60), minute: minutes % 60 });

export const dailyValues = {
  on: "does the bench say things by itself?",
  at: "hour of the daily message, HH:MM on the bench",
  quiet: "quiet hours, HH:MM to HH:MM, or null",
  roll_days: "film that has waited longer is mentioned, days",
  thermometer: "ISO date of its last check, or null",
  next_message: "ISO instant of the next message with something to say, or null",
};

/** How the daily message stands, as the answer to showing or changing it. */
export function dailyReply(bench: Bench, title: string, say: string): Reply {
  const { daily, dailyLook } = bench;
  const { on, quietFrom, quietTo, rollDays, thermometerOn } = daily;
  const quiet =
    quietFrom === quietTo ? undefined : `${ofMinutes(quietFrom)} to ${ofMinutes(quietTo)}`;
  const next = dailyLook.next;
  return answer({
    title,
    say,
    lines: [
      on
        ? `daily message: ${showTime(daily)}, on days with something to say`
        : `daily message: off; what you asked for still comes, at ${showTime(daily)} or its own time`,
      quiet === undefined
        ? "quiet hours: none"
        : `quiet hours: ${quiet}; only what you asked for at that very time`,
      `film that waits: mentioned after ${rollDays} days`,
      ...(thermometerOn === undefined
        ? []
        : [`thermometer: last checked ${showDate(thermometerOn)}`]),
      ...(next === undefined ? [] : [`next message: ${showMoment(next, bench.zone)}`]),
    ],
    facts: {
      on,
      at: showTime(daily),
      quiet: quiet ?? null,
      roll_days: rollDays,
      thermometer: thermometerOn ?? null,
      next_message: next === undefined ? null : isoInstant(next),
    },
  });
}
