import { capital } from "../domain/capital.ts";
import { ownValue } from "../domain/own-value.ts";
import { sayDay, showDay, showMoment, zonedAt } from "../domain/reminders/calendar.ts";
import { dueOf } from "../domain/reminders/due.ts";
import { type Given, LATE_REMINDER } from "../domain/reminders/give.ts";
import type { Reminder } from "../domain/reminders/reminder.ts";
import { showRepeats } from "../domain/reminders/show-repeats.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Instant, Seconds } from "../domain/units/quantity.ts";
import { type Json, oneBreath, type Reply, reminder as remind } from "../reply/reply.ts";

type GivenReminder = Given & { readonly event: Extract<Given["event"], { kind: "reminder" }> };
const isReminder = (one: Given): one is GivenReminder => one.event.kind === "reminder";

/** "5 min ago", "36 h ago", "3 days ago". */
function ago(late: Seconds): string {
  const minutes = Math.round(late / 60);
  if (minutes < 90) return `${minutes} min ago`;
  const hours = Math.round(minutes / 60);
  return hours < 48 ? `${hours} h ago` : `${Math.round(hours / 24)} days ago`;
}

const lateFigure = (late: Seconds): Reply["figures"] =>
  late > LATE_REMINDER
    ? {
        late_s: {
          value: Math.round(late),
          origin: { kind: "computed", source: "since it was due" },
        },
      }
    : {};

/** When it comes again, for what repeats. `bench` is the bench after it was told. */
function againLine(bench: Bench, { id, rule }: Reminder): string | undefined {
  if (rule.kind !== "every") return undefined;
  const after = ownValue(bench.reminders, id);
  const due = after === undefined ? undefined : dueOf(after);
  if (due === undefined) return undefined;
  const next =
    "at" in due ? showMoment(due.at, bench.zone) : showDay(Temporal.PlainDate.from(due.day));
  return `${capital(showRepeats(rule))}; next ${next}.`;
}

function single(bench: Bench, reminder: Reminder, at: Instant, late: Seconds): Reply {
  const isLate = late > LATE_REMINDER;
  const again = againLine(bench, reminder);
  const kind = isLate ? "Late reminder" : "Reminder";
  return remind({
    title: `${kind}: ${reminder.text}`,
    say: oneBreath(`${kind}: ${reminder.text}`),
    lines: [
      ...(isLate ? [`It was due ${showMoment(at, bench.zone)}, ${ago(late)}.`] : []),
      ...(again === undefined ? [] : [again]),
    ],
    facts: { reminder: reminder.id, text: reminder.text, due: isoAt(at), owner: reminder.owner },
    figures: lateFigure(late),
  });
}

const isoAt = (at: Instant): string =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toString();

/**
 * Several of one person's that came due while nobody could be told: one message, in order of their
 * instants.
 */
function missed(bench: Bench, late: readonly GivenReminder[]): Reply {
  const rising = late.toSorted((one, other) => one.event.at - other.event.at);
  const lines = rising.map(
    ({ event }) => `${showMoment(event.at, bench.zone)}: ${event.reminder.text}`,
  );
  return remind({
    title: `${late.length} reminders came due while I could not tell you:`,
    say: `${late.length} reminders came due meanwhile. They are on the screen.`,
    lines,
    facts: {
      reminders: rising.map(
        ({ event }): Json => ({
          id: event.reminder.id,
          text: event.reminder.text,
          due: isoAt(event.at),
        }),
      ),
      ...(rising[0] === undefined ? {} : { owner: rising[0].event.reminder.owner }),
    },
    figures: rising[0] === undefined ? {} : lateFigure(rising[0].late),
  });
}

function daily(bench: Bench, { event, late }: Given, now: Instant): Reply | undefined {
  if (event.kind !== "daily") return undefined;
  const today = zonedAt(now, bench.zone).toPlainDate();
  const items = [
    ...event.reminders.map((one) => {
      const due = dueOf(one);
      const was = due !== undefined && "day" in due && due.day < today.toString() ? due.day : "";
      const text = capital(one.text);
      return was === "" ? text : `${text} (due ${showDay(Temporal.PlainDate.from(was))})`;
    }),
    ...event.notices.map(({ text }) => text()),
  ];
  const isLate = late > LATE_REMINDER;
  const [only] = items;
  return remind({
    title: `For ${showDay(today)}:`,
    say:
      items.length === 1 && only !== undefined && only.split(/\s+/).length <= 10
        ? `Today: ${only}`
        : `${items.length === 1 ? "One thing" : `${items.length} things`} for ${sayDay(today)}, on the screen.`,
    lines: isLate
      ? [...items, `This message was due ${showMoment(event.at, bench.zone)}, ${ago(late)}.`]
      : items,
    facts: {
      day: today.toString(),
      reminders: event.reminders.map(({ id, text }): Json => ({ id, text })),
      notices: event.notices.map(({ kind, text }): Json => ({ kind, text: text() })),
    },
    figures: lateFigure(late),
  });
}

/**
 * What the clock tells beside the cues of runs: first what was asked for, then the daily message.
 * `bench` is the bench after it.
 */
export function announceReminders(
  bench: Bench,
  given: readonly Given[],
  now: Instant,
): readonly Reply[] {
  const asked = given.filter(isReminder);
  const late = asked.filter((one) => one.late > LATE_REMINDER);
  const byOwner = Map.groupBy(late, ({ event }) => event.reminder.owner);
  const several = [...byOwner.values()].filter((ones) => ones.length > 1);
  const apart = asked.filter((one) => !several.some((ones) => ones.includes(one)));
  return [
    ...several.map((ones) => missed(bench, ones)),
    ...apart.map(({ event, late: by }) => single(bench, event.reminder, event.at, by)),
    ...given.flatMap((one) => daily(bench, one, now) ?? []),
  ];
}
