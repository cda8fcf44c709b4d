import type { Bench } from "../session/bench.ts";
import { isLive, type Run } from "../session/run.ts";
import { type Instant, type Seconds, secondsBetween } from "../units/quantity.ts";
import { quietUntil } from "./daily.ts";
import { tellDaily } from "./daily-message.ts";
import { afterGiving, dueOf } from "./due.ts";
import type { Looks } from "./looks.ts";
import type { Notice } from "./notices.ts";
import type { Reminder } from "./reminder.ts";

/** What the clock tells beside the runs. */
export type ReminderEvent =
  | { readonly kind: "reminder"; readonly at: Instant; readonly reminder: Reminder }
  | {
      readonly kind: "daily";
      readonly at: Instant;
      readonly notices: readonly Notice[];
      readonly reminders: readonly Reminder[];
    };

/** A reminder or the daily message, due but not looked into. */
type Waiting =
  | { readonly kind: "reminder"; readonly at: Instant; readonly reminder: Reminder }
  | { readonly kind: "daily"; readonly at: Instant };

/** Told later than this, s, it is late: it says so, and quiet hours hold it back. */
export const LATE_REMINDER = 60;

/**
 * What stands in the way. A bath of exact time and a pour want both hands and ears: everything
 * waits. Any other bath holds back the daily message only; what somebody asked for at that very
 * time comes between its cues. Runs move on by the clock, so nothing waits for ever.
 */
function holds(run: Run, what: Waiting["kind"]): boolean {
  if (!isLive(run)) return false;
  const stage = run.stages[run.current];
  if (stage?.pourAt === undefined || run.rehearsal !== undefined) return false;
  return what === "daily" || stage.sense === "exact" || stage.inAt === undefined;
}

const isHeld = (bench: Bench, what: Waiting["kind"]): boolean => {
  for (const id in bench.runs) {
    const run = bench.runs[id];
    if (run !== undefined && holds(run, what)) return true;
  }
  return false;
};

/** The next thing to tell that no run holds back. */
export function nextReminder(bench: Bench): Waiting | undefined {
  let found: Waiting | undefined;
  const { next, heldUntil } = bench.dailyLook;
  if (next !== undefined && !isHeld(bench, "daily")) {
    found = { kind: "daily", at: heldUntil ?? next };
  }
  let held: boolean | undefined;
  for (const id in bench.reminders) {
    const reminder = bench.reminders[id];
    const due = reminder === undefined ? undefined : dueOf(reminder);
    if (reminder === undefined || due === undefined || !("at" in due)) continue;
    const at = reminder.heldUntil ?? due.at;
    if (found !== undefined && at >= found.at) continue;
    held ??= isHeld(bench, "reminder");
    if (held) return found;
    found = { kind: "reminder", at, reminder };
  }
  return found;
}

export type Given = { readonly event: ReminderEvent; readonly late: Seconds };
type After = { readonly bench: Bench; readonly given?: Given };

/** Tells one thing that is due, or puts it off to the end of the quiet hours. */
export const give = (bench: Bench, waiting: Waiting, now: Instant, looks: Looks): After =>
  waiting.kind === "daily"
    ? giveDaily(bench, waiting.at, now, looks)
    : giveReminder(bench, waiting.reminder, waiting.at, now);

/** Nothing comes in quiet hours but what is on time: then it was asked for at that very time. */
const putOff = (bench: Bench, late: Seconds, now: Instant): Instant | undefined =>
  late > LATE_REMINDER ? quietUntil(bench, now) : undefined;

function giveReminder(bench: Bench, reminder: Reminder, at: Instant, now: Instant): After {
  const due = dueOf(reminder);
  const meant = due !== undefined && "at" in due ? due.at : at;
  const late = secondsBetween(meant, now);
  const quiet = putOff(bench, late, now);
  if (quiet !== undefined) {
    return { bench: withReminder(bench, { ...reminder, heldUntil: quiet }) };
  }
  return {
    bench: withGiven(bench, reminder, now),
    given: { event: { kind: "reminder", at: meant, reminder }, late },
  };
}

function giveDaily(bench: Bench, at: Instant, now: Instant, looks: Looks): After {
  const { dailyLook } = bench;
  const meant = dailyLook.next ?? at;
  const late = secondsBetween(meant, now);
  const quiet = putOff(bench, late, now);
  if (quiet !== undefined) {
    return { bench: { ...bench, dailyLook: { ...dailyLook, heldUntil: quiet } } };
  }
  const { bench: after, message } = tellDaily(bench, now, looks, (all, one) =>
    withGiven(all, one, now),
  );
  if (message === undefined) return { bench: after };
  return { bench: after, given: { event: { kind: "daily", at: meant, ...message }, late } };
}

const withGiven = (bench: Bench, reminder: Reminder, now: Instant): Bench =>
  withReminder(bench, afterGiving(reminder, now, bench));

export const withReminder = (bench: Bench, reminder: Reminder): Bench => ({
  ...bench,
  reminders: { ...bench.reminders, [reminder.id]: reminder },
});
