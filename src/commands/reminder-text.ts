import { sayDay, sayMoment, showDay, showMoment, showTime } from "../domain/reminders/calendar.ts";
import { dueOf } from "../domain/reminders/due.ts";
import type { Due, Reminder } from "../domain/reminders/reminder.ts";
import { showRepeats } from "../domain/reminders/show-repeats.ts";
import type { Bench } from "../domain/session/bench.ts";
import { isoInstant } from "../domain/timing/clock-text.ts";
import type { Json } from "../reply/reply.ts";

/** When something is due, in full and in the bench's zone. */
export const showDue = (bench: Bench, due: Due): string =>
  "at" in due ? showMoment(due.at, bench.zone) : showDay(Temporal.PlainDate.from(due.day));

export const sayDue = (bench: Bench, due: Due): string =>
  "at" in due ? sayMoment(due.at, bench.zone) : sayDay(Temporal.PlainDate.from(due.day));

/** A day without a time comes with the daily message; that hour is said. */
export const withMessage = (bench: Bench, due: Due): readonly string[] =>
  "day" in due ? [`It comes with the daily message at ${showTime(bench.daily)}.`] : [];

/** The JSON values of a due date: an instant or a day. */
export const dueFacts = (due: Due | undefined): { readonly [key: string]: Json } =>
  due === undefined ? { due: null } : "at" in due ? { due: isoInstant(due.at) } : { due: due.day };

export const dueValues = {
  due: "ISO instant, or ISO date when it comes with that day's message",
} as const;

/** One line of a list: the text, when it comes, how often. */
export function reminderLine(bench: Bench, reminder: Reminder): string {
  const due = dueOf(reminder);
  const { rule, text, was, heldUntil } = reminder;
  const often = rule.kind === "every" ? ` (${showRepeats(rule)})` : "";
  if (heldUntil !== undefined && due !== undefined) {
    const comes = showMoment(heldUntil, bench.zone);
    return `${text}: was due ${showDue(bench, due)}, comes ${comes}, after the quiet hours${often}`;
  }
  if (due !== undefined) return `${text}: ${showDue(bench, due)}${often}`;
  const when = was === undefined ? "" : ` ${showDue(bench, was)}`;
  return `${text}: told${when}, not ticked off`;
}
