import type { Bench } from "../session/bench.ts";
import type { Instant } from "../units/quantity.ts";
import { instantOf, zonedAt } from "./calendar.ts";
import type { Due, Reminder } from "./reminder.ts";

/**
 * The bench in another zone. What repeats keeps its time on the wall: 18:00 there. What was asked
 * for once keeps its instant, and so does the end of a snooze: an absolute date stays.
 */
export function moveZone(bench: Bench, zone: string): Bench {
  if (zone === bench.zone) return bench;
  const moved = (at: Instant): Instant => {
    const local = zonedAt(at, bench.zone);
    return instantOf(local.toPlainDate(), local, zone).at;
  };
  const movedDue = (due: Due | undefined): Due | undefined =>
    due !== undefined && "at" in due ? { at: moved(due.at) } : due;
  const { dailyLook } = bench;
  return {
    ...bench,
    zone,
    reminders: Object.fromEntries(
      Object.entries(bench.reminders).map(([id, reminder]): [string, Reminder] => [
        id,
        reminder.rule.kind === "every" ? { ...reminder, due: movedDue(reminder.due) } : reminder,
      ]),
    ),
    dailyLook: {
      ...dailyLook,
      next: dailyLook.next === undefined ? undefined : moved(dailyLook.next),
      heldUntil: undefined,
    },
  };
}
