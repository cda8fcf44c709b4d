import { ownValue } from "../domain/own-value.ts";
import { dueOf } from "../domain/reminders/due.ts";
import type { Reminder } from "../domain/reminders/reminder.ts";
import type { Bench } from "../domain/session/bench.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import { reminderLine } from "./reminder-text.ts";

/** Words that do not tell one reminder from another. */
const small = new Set("the a an my our to of about reminder reminders that with".split(" "));

const wordsOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "" && !small.has(word));

/** Reminders that are still to come or wait to be ticked off, the next first. */
export const liveReminders = (bench: Bench): readonly Reminder[] =>
  Object.values(bench.reminders)
    .filter((one) => dueOf(one) !== undefined || one.doneOn === undefined)
    .toSorted((one, other) => orderOf(one).localeCompare(orderOf(other)));

/** Told ones first, then by due date; an instant sorts by its own day in UTC, near enough. */
function orderOf(reminder: Reminder): string {
  const due = dueOf(reminder);
  if (due === undefined) return "";
  return "at" in due ? Temporal.Instant.fromEpochMilliseconds(due.at).toString() : `${due.day}T12`;
}

/**
 * The reminder some words mean: all of them begin words of its text. An id, from an answered
 * question, means itself.
 */
export function reminderMeant(
  bench: Bench,
  command: string,
  slot: string,
  said: string,
  fields: Readonly<Record<string, unknown>>,
): { readonly reminder: Reminder } | { readonly reply: Reply } {
  const byId = ownValue(bench.reminders, said);
  if (byId !== undefined) return { reminder: byId };
  const wanted = wordsOf(said);
  const all = liveReminders(bench);
  const found = all.filter(({ text }) => {
    const own = wordsOf(text);
    return wanted.length > 0 && wanted.every((word) => own.some((one) => one.startsWith(word)));
  });
  const [only] = found;
  if (only !== undefined && found.length === 1) return { reminder: only };
  if (only !== undefined) {
    const options = found.map(({ id, text }) => ({ word: text.slice(0, 60), value: id }));
    const title = `${found.length} reminders have "${said.slice(0, 60)}" in them. Which one?`;
    return { reply: askFor(command, fields, slot, title, options) };
  }
  return {
    reply: refuse(
      "no-such-reminder",
      `No reminder has "${said.slice(0, 60)}" in it. Say reminders to see them.`,
      {
        lines: all.slice(0, 5).map((one) => reminderLine(bench, one)),
        say: "No reminder has that in it. Say reminders.",
      },
    ),
  };
}

/** The reminder told last that has not been ticked off. */
export const lastTold = (bench: Bench): Reminder | undefined =>
  Object.values(bench.reminders)
    .filter((one) => one.givenAt !== undefined && one.doneOn === undefined)
    .toSorted((one, other) => (other.givenAt ?? 0) - (one.givenAt ?? 0))[0];
