import { ownValue } from "../../../domain/own-value.ts";
import { dueOf } from "../../../domain/reminders/due.ts";
import type { Due, Reminder } from "../../../domain/reminders/reminder.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { type Instant, instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import { reminderKey } from "./asked.ts";
import { A_ROW, button, type Rows } from "./buttons.ts";

/** Told reminders and the daily message: what each button of them means holds over a restart. */

/** The word of the button that puts the whole daily message off. */
export const SNOOZE_DAILY = "snooze-daily";

/** The instant, or the first of the day, that a reminder was told for last. */
export function toldFor({ was }: Reminder): Instant | undefined {
  return was === undefined ? undefined : dueInstant(was);
}

const dueInstant = (due: Due): Instant =>
  "at" in due
    ? due.at
    : instant(Temporal.PlainDate.from(due.day).toZonedDateTime("UTC").epochMilliseconds);

/** Which reminders a message tells of, told apart from what the same ones say another day. */
function remindersOf(bench: Bench, { facts }: Reply): readonly Reminder[] {
  if (typeof facts.reminder === "string") {
    const one = ownValue(bench.reminders, facts.reminder);
    return one === undefined ? [] : [one];
  }
  if (!Array.isArray(facts.reminders)) return [];
  const all = Object.values(bench.reminders);
  return facts.reminders.flatMap((told: Reply["facts"][string]) => {
    if (typeof told !== "object" || told === null || !("text" in told)) return [];
    const { id, text, due } = told as { id?: unknown; text: unknown; due?: unknown };
    const one = all.find((reminder) =>
      typeof id === "string"
        ? reminder.id === id
        : reminder.text === text && isoOf(toldFor(reminder)) === due,
    );
    return one === undefined ? [] : [one];
  });
}

const isoOf = (at: Instant | undefined): string | undefined =>
  at === undefined ? undefined : Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toString();

/**
 * Snooze and done below a reminder; below several, done for each with its text, as many as a row
 * holds.
 */
export function reminderButtons(bench: Bench, benchKey: string, reply: Reply): Rows {
  const told = remindersOf(bench, reply).slice(0, A_ROW);
  const keyOf = (one: Reminder): string => {
    const due = dueOf(one);
    const at = toldFor(one) ?? (due === undefined ? instant(0) : dueInstant(due));
    return reminderKey(one.id, at);
  };
  const day = typeof reply.facts.day === "string" ? reply.facts.day : undefined;
  const [only] = told;
  if (only !== undefined && told.length === 1 && day === undefined) {
    const key = keyOf(only);
    return [[button(benchKey, "snooze", key), button(benchKey, "done", key)]];
  }
  const done = told.map((one) => button(benchKey, "done", keyOf(one), `done: ${one.text}`));
  const later =
    day === undefined
      ? told.map((one) => button(benchKey, "snooze", keyOf(one), `snooze: ${one.text}`))
      : [button(benchKey, SNOOZE_DAILY, day, "snooze")];
  return [done, later].filter((row) => row.length > 0);
}
