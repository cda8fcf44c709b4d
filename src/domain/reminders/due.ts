import type { Bench } from "../session/bench.ts";
import type { Instant } from "../units/quantity.ts";
import { dayAt } from "./calendar.ts";
import { messageAt, nextMessage } from "./daily.ts";
import { nextDay, nextInstant } from "./occurrence.ts";
import type { Due, Reminder, Repeats } from "./reminder.ts";

/** When a reminder next comes: the end of a snooze or the next time by its rule, the earlier. */
export function dueOf({ due, snoozed, doneOn }: Reminder): Due | undefined {
  if (doneOn !== undefined || snoozed === undefined) return due;
  if (due === undefined) return snoozed;
  return sortKey(snoozed) <= sortKey(due) ? snoozed : due;
}

/** Days compare with instants by their middle in UTC: only ever used to pick of two. */
const sortKey = (due: Due): number =>
  "at" in due
    ? due.at
    : Temporal.PlainDate.from(due.day).toZonedDateTime({ timeZone: "UTC", plainTime: "12:00" })
        .epochMilliseconds;

/** The instant at which it is told if nothing stands in the way. */
export function dueAt(
  bench: Pick<Bench, "daily" | "zone">,
  reminder: Reminder,
): Instant | undefined {
  const due = dueOf(reminder);
  if (due === undefined) return undefined;
  return "at" in due ? due.at : messageAt(bench, Temporal.PlainDate.from(due.day));
}

/** The first time a rule falls after an instant. */
export function firstDue(
  rule: Repeats,
  after: Instant,
  bench: Pick<Bench, "daily" | "zone">,
): Due | undefined {
  if (rule.time !== undefined) {
    const found = nextInstant(rule, after, bench.zone);
    return found === undefined ? undefined : { at: found.at };
  }
  const day = nextDay(rule, nextMessage(bench, after));
  return day === undefined ? undefined : { day: day.toString() };
}

/** A reminder that has just been told. What came due meanwhile counts as told with it. */
export function afterGiving(
  before: Reminder,
  now: Instant,
  bench: Pick<Bench, "daily" | "zone">,
): Reminder {
  const { snoozed: _, heldUntil: __, doneOn: ___, ...reminder } = before;
  const told = dueOf(before);
  const given = { ...reminder, givenAt: now, was: told };
  const { rule, due } = reminder;
  if (rule.kind === "once") return { ...given, due: undefined };
  const passed = due === undefined || hasPassed(due, now, bench.zone);
  return passed ? { ...given, due: firstDue(rule, now, bench) } : given;
}

const hasPassed = (due: Due, now: Instant, zone: string): boolean =>
  "at" in due ? due.at <= now : due.day <= dayAt(now, zone).toString();

export type Coming = { readonly reminder: Reminder; readonly at: Instant };

/** No list is longer than this. */
const MOST = 10_000;

/**
 * Every time a reminder of the bench comes due from `from` (inclusive) to `to` (exclusive), in
 * order, repeated ones with each of their times, as if nobody snoozed or ticked anything off.
 */
export function dueReminders(bench: Bench, from: Instant, to: Instant): readonly Coming[] {
  const coming: Coming[] = [];
  for (const reminder of Object.values(bench.reminders)) {
    let current: Reminder | undefined = reminder;
    while (current !== undefined && coming.length < MOST) {
      const at = dueAt(bench, current);
      if (at === undefined || at >= to) break;
      if (at >= from) coming.push({ reminder, at });
      current = afterGiving(current, at, bench);
    }
  }
  return coming.sort((one, other) => one.at - other.at);
}
