import type { Bench } from "../session/bench.ts";
import { type Instant, instant } from "../units/quantity.ts";
import { type Day, dayAt, dayNumber, dayOfNumber, isoDayNumber, LAST_DAY } from "./calendar.ts";
import { messageAt, nextMessage } from "./daily.ts";
import { dueOf } from "./due.ts";
import type { Looks } from "./looks.ts";
import { type Notice, noticesOf } from "./notices.ts";
import type { Reminder } from "./reminder.ts";

/** What one daily message holds. */
export type DailyMessage = {
  readonly notices: readonly Notice[];
  readonly reminders: readonly Reminder[];
};

type Told = Bench["dailyLook"]["told"];

/**
 * The bench with the instant at which its daily message next has something to say. To be called
 * after every change, with the moment of the change: what became true today waits for the next
 * message, so that no message comes at an odd hour. The same bench when nothing moved.
 */
export function planDaily(bench: Bench, now: Instant, looks: Looks): Bench {
  const today = dayAt(now, bench.zone);
  return planFrom(bench, now, today, noticesOf(bench, today, looks));
}

function planFrom(bench: Bench, now: Instant, today: Day, notices: readonly Notice[]): Bench {
  const { dailyLook } = bench;
  const told = bench.daily.on ? kept(dailyLook.told, notices) : dailyLook.told;
  const soonest = soonestDay(bench, now, today);
  // Counted in days; only the first of them is made an instant.
  let first = Number.POSITIVE_INFINITY;
  let again = Number.POSITIVE_INFINITY;
  for (const { key, from } of notices) {
    const before = told[key];
    if (before === undefined) first = Math.min(first, from);
    else again = Math.min(again, before.again ?? Number.POSITIVE_INFINITY);
  }
  for (const id in bench.reminders) {
    const reminder = bench.reminders[id];
    const due = reminder === undefined ? undefined : dueOf(reminder);
    if (due !== undefined && "day" in due) first = Math.min(first, isoDayNumber(due.day));
  }
  if (first <= LAST_DAY) {
    const day = dayOfNumber(Math.max(first, dayNumber(soonest)));
    again = Math.min(again, messageAt(bench, day));
  }
  let next = Number.isFinite(again) ? instant(again) : undefined;
  // A message that is due and not yet told (a bath is in, the program was down) stays due.
  if (dailyLook.next !== undefined && dailyLook.next <= now && next !== undefined) {
    next = dailyLook.next;
  }
  if (next === dailyLook.next && told === dailyLook.told) return bench;
  return { ...bench, dailyLook: { ...dailyLook, next, told } };
}

/** No second message on the day of the last one. */
function soonestDay(bench: Bench, now: Instant, today: Day): Day {
  const next = nextMessage(bench, instant(now - 1));
  const last = bench.dailyLook.on;
  return last === undefined || last < next.toString() || last > today.toString()
    ? next
    : next.add({ days: 1 });
}

/** Bottles that are gone take what was told of them along: their ids may be given again. */
function kept(told: Told, notices: readonly Notice[]): Told {
  // Most often nothing of it is gone, and that is settled without a look at each notice's key twice.
  const missing = new Set(Object.keys(told));
  if (missing.size === 0) return told;
  for (const { key } of notices) missing.delete(key);
  if (missing.size === 0) return told;
  const known = new Set(notices.map(({ key }) => key));
  // The notice of a weekend goes while its bottle stays.
  const stays = (key: string): boolean =>
    known.has(key) || (key.endsWith(":weekend") && known.has(key.replace(/weekend$/, "day")));
  const entries = Object.entries(told);
  const left = entries.filter(([key]) => stays(key));
  return left.length === entries.length ? told : Object.fromEntries(left);
}

/**
 * Tells all there is to say at an instant: the message, and the bench after it with the next one
 * planned. Reminders are marked by `markGiven`. No message where there is nothing to say after all.
 */
export function tellDaily(
  bench: Bench,
  now: Instant,
  looks: Looks,
  markGiven: (bench: Bench, reminder: Reminder) => Bench,
): { readonly bench: Bench; readonly message?: DailyMessage } {
  const today = dayAt(now, bench.zone);
  const notices = noticesOf(bench, today, looks);
  const message = gather(bench, now, today, notices);
  if (message.notices.length + message.reminders.length === 0) {
    const { next: _, heldUntil: __, ...dailyLook } = bench.dailyLook;
    return { bench: planFrom({ ...bench, dailyLook }, now, today, notices) };
  }
  const told = message.reminders.reduce(markGiven, markTold(bench, message, now, today));
  return { bench: planFrom(told, now, today, notices), message };
}

/** Of several steps of one bottle only the last is said. */
function gather(bench: Bench, now: Instant, today: Day, notices: readonly Notice[]): DailyMessage {
  const { told } = bench.dailyLook;
  const number = dayNumber(today);
  const open = notices.filter(({ key, from }) => {
    const before = told[key];
    if (before !== undefined) return before.again !== undefined && before.again <= now;
    return from <= number;
  });
  const settled = new Set(open.flatMap(({ settles }) => settles));
  const iso = today.toString();
  const reminders = Object.values(bench.reminders).filter((reminder) => {
    const due = dueOf(reminder);
    return due !== undefined && "day" in due && due.day <= iso;
  });
  return { notices: open.filter(({ key }) => !settled.has(key)), reminders };
}

function markTold(bench: Bench, { notices }: DailyMessage, now: Instant, today: Day): Bench {
  const on = today.toString();
  const told = { ...bench.dailyLook.told };
  for (const { key, settles } of notices) {
    for (const one of [key, ...settles]) told[one] = { on };
  }
  return { ...bench, dailyLook: { on, givenAt: now, told } };
}
