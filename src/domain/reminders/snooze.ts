import type { Bench } from "../session/bench.ts";
import { type Instant, later } from "../units/quantity.ts";
import { dayAt, instantOf, type TimeOfDay, zonedAt } from "./calendar.ts";
import { messageAt, nextMessage, quietUntil } from "./daily.ts";
import { dueOf, firstDue } from "./due.ts";
import { withReminder } from "./give.ts";
import type { Due, Reminder } from "./reminder.ts";

/** "snooze" alone, s; common practice, no source. */
const USUAL = 3600;

/** Something that was told and can be told again: one reminder, or the daily message as a whole. */
export type Told =
  | { readonly kind: "reminder"; readonly reminder: Reminder; readonly at: Instant }
  | { readonly kind: "daily"; readonly at: Instant };

/** What was told last. A reminder inside the daily message is part of it. */
export function toldLast(bench: Bench): Told | undefined {
  const { givenAt } = bench.dailyLook;
  let last: Told | undefined = givenAt === undefined ? undefined : { kind: "daily", at: givenAt };
  for (const reminder of Object.values(bench.reminders)) {
    const at = reminder.givenAt;
    if (at === undefined || reminder.doneOn !== undefined) continue;
    if (last === undefined || at > last.at) last = { kind: "reminder", reminder, at };
  }
  return last;
}

/** Does it have a time of its own, or does it come with the daily message? */
const timeOf = ({ rule, was, due }: Reminder, zone: string): TimeOfDay | undefined => {
  if (rule.kind === "every") return rule.time;
  const meant = due ?? was;
  return meant !== undefined && "at" in meant ? zonedAt(meant.at, zone) : undefined;
};

/** An hour from now, but not into the quiet hours; what came with the message comes with the next. */
export function usualSnooze(bench: Bench, reminder: Reminder, now: Instant): Due {
  if (timeOf(reminder, bench.zone) === undefined)
    return { day: nextMessage(bench, now).toString() };
  const at = later(now, USUAL);
  return { at: quietUntil(bench, at) ?? at };
}

/** A whole day given to a reminder with a time keeps that time. */
export function snoozeDue(bench: Bench, reminder: Reminder, day: string): Due {
  const time = timeOf(reminder, bench.zone);
  if (time === undefined) return { day };
  return {
    at: instantOf(
      Temporal.PlainDate.from(day),
      { hour: time.hour, minute: time.minute },
      bench.zone,
    ).at,
  };
}

/** The bench with a reminder put off. One that was not told yet is moved, not told twice. */
export function snoozeReminder(bench: Bench, reminder: Reminder, until: Due): Bench {
  const { heldUntil: _, doneOn: __, ...rest } = reminder;
  const { rule, due } = reminder;
  if (rule.kind === "once") {
    return withReminder(bench, { ...rest, due: undefined, snoozed: until });
  }
  const told = reminder.givenAt !== undefined && reminder.doneOn === undefined;
  const target = "at" in until ? until.at : messageAt(bench, Temporal.PlainDate.from(until.day));
  const skips = !told && due !== undefined;
  const next = skips ? firstDue(rule, target, bench) : due;
  return withReminder(bench, { ...rest, due: next, snoozed: until });
}

/** The bench with all of the last daily message put off to an instant or to another day's message. */
export function snoozeDaily(bench: Bench, until: Due): Bench {
  const { dailyLook } = bench;
  const again = "at" in until ? until.at : messageAt(bench, Temporal.PlainDate.from(until.day));
  const told = Object.fromEntries(
    Object.entries(dailyLook.told).map(([key, one]) => [
      key,
      one.on === dailyLook.on && !isSettled(dailyLook.told, key) ? { ...one, again } : one,
    ]),
  );
  const day = dayAt(again, bench.zone).toString();
  let after: Bench = { ...bench, dailyLook: { ...dailyLook, told } };
  for (const reminder of Object.values(bench.reminders)) {
    if (reminder.givenAt !== dailyLook.givenAt || reminder.doneOn !== undefined) continue;
    if (dueOf(reminder) !== undefined && reminder.rule.kind === "once") continue;
    after = snoozeReminder(after, reminder, "at" in until ? until : { day });
  }
  return after;
}

/** Of the steps of one bottle only the last was said: the earlier ones stay settled. */
function isSettled(told: Bench["dailyLook"]["told"], key: string): boolean {
  const order = [":75", ":90", ":weekend", ":day"];
  const place = order.findIndex((end) => key.endsWith(end));
  if (place < 0) return false;
  const bottle = key.slice(0, key.lastIndexOf(":"));
  const on = told[key]?.on;
  return order.slice(place + 1).some((end) => told[`${bottle}${end}`]?.on === on);
}
