import type { Bottle } from "../domain/chemistry/bottle.ts";
import { ownValue } from "../domain/own-value.ts";
import { explainShift, showDay, showMoment, zonedAt } from "../domain/reminders/calendar.ts";
import { messageAt } from "../domain/reminders/daily.ts";
import { firstDue } from "../domain/reminders/due.ts";
import { nextInstant } from "../domain/reminders/occurrence.ts";
import type { Due, Repeats } from "../domain/reminders/reminder.ts";
import { explainShortMonths, showRepeats } from "../domain/reminders/show-repeats.ts";
import { type Bench, liveBottles } from "../domain/session/bench.ts";
import { type Instant, instant } from "../domain/units/quantity.ts";
import { lookOn } from "./bottle-looks.ts";
import type { MomentField, WhenField } from "./when-fields.ts";

/** Later than this nobody keeps a bench. */
const LAST_YEAR = 2199;

/** A moment as it will be kept, with what has to be said about it. */
export type Resolved = {
  readonly due: Due;
  readonly rule: { readonly kind: "once" } | Repeats;
  readonly notes: readonly string[];
  /** The bottle it counts from. */
  readonly bottle?: Bottle;
  /** ISO date from which it is counted. */
  readonly from?: string;
};

/** Why a moment cannot be kept: a reason in kebab-case, and the sentence that says so. */
export type NoMoment = {
  readonly reason: string;
  readonly sentence: string;
  /** Which of these bottles is meant. */
  readonly bottles?: readonly Bottle[];
};

/** The due date of a moment ahead, or why there is none. `bottle` answers what "it" is. */
export function resolveMoment(
  bench: Bench,
  now: Instant,
  when: MomentField,
  bottle?: string,
): Resolved | NoMoment {
  switch (when.kind) {
    case "no-such-date":
      return {
        reason: "no-such-date",
        sentence: `I find no day ahead called "${when.heard.slice(0, 60)}". Which day instead?`,
      };
    case "at":
      return resolveAt(bench, now, when);
    case "day":
      return resolveDay(bench, now, when.day);
    case "every":
      return resolveRule(bench, now, when);
    case "from-bottle":
      return resolveFromBottle(bench, now, when, bottle);
  }
}

const once = { kind: "once" } as const;

function resolveAt(
  bench: Bench,
  now: Instant,
  when: Extract<WhenField, { kind: "at" }>,
): Resolved | NoMoment {
  const at = instant(Math.floor(when.at));
  const { zone } = bench;
  if (at <= now) return past(showMoment(at, zone));
  if (zonedAt(at, zone).year > LAST_YEAR) return tooFar;
  const { meant } = when;
  const notes = [
    ...(when.taken === undefined ? [] : [`${when.taken}.`]),
    ...(meant === undefined ? [] : [explainShift(meant.shift, meant, at, zone)]),
  ];
  return { due: { at }, rule: once, notes };
}

function resolveDay(bench: Bench, now: Instant, iso: string): Resolved | NoMoment {
  const today = zonedAt(now, bench.zone).toPlainDate();
  const day = Temporal.PlainDate.from(iso);
  const order = Temporal.PlainDate.compare(day, today);
  if (order < 0) return past(showDay(day));
  if (day.year > LAST_YEAR) return tooFar;
  if (order === 0 && messageAt(bench, day) <= now) {
    return {
      reason: "message-is-out",
      sentence: "Today's message has gone out. At what time today, for example at 8 pm?",
    };
  }
  return { due: { day: iso }, rule: once, notes: [] };
}

function resolveRule(bench: Bench, now: Instant, rule: Repeats): Resolved | NoMoment {
  if (rule.every < 1) {
    return {
      reason: "never-comes",
      sentence: `"${showRepeats(rule)}" never comes. How often instead, for example every 2 weeks?`,
    };
  }
  const due = firstDue(rule, now, bench);
  if (due === undefined) return tooFar;
  const short = explainShortMonths(rule);
  const first = nextInstant(rule, now, bench.zone);
  const shift =
    first?.shift === undefined || rule.time === undefined
      ? []
      : [explainShift(first.shift, rule.time, first.at, bench.zone)];
  return { due, rule, notes: [...(short === undefined ? [] : [short]), ...shift] };
}

function resolveFromBottle(
  bench: Bench,
  now: Instant,
  when: Extract<WhenField, { kind: "from-bottle" }>,
  chosen: string | undefined,
): Resolved | NoMoment {
  const live = liveBottles(bench);
  const id = when.bottle ?? chosen ?? (live.length === 1 ? live[0]?.id : undefined);
  const bottle = id === undefined ? undefined : ownValue(bench.bottles, id);
  if (bottle === undefined) {
    return live.length === 0
      ? { reason: "no-bottle", sentence: "I know no bottle yet. Which day instead?" }
      : { reason: "which-bottle", sentence: "Which bottle?", bottles: live };
  }
  const { months, days } = when;
  const today = zonedAt(now, bench.zone).toPlainDate().toString();
  const start = when.anchor === "mixed" ? bottle.mixedOn : lookOn(bench, bottle, today).due;
  if (start === undefined) {
    return {
      reason: "no-limit-known",
      sentence: `I know no limit for ${bottle.name}. Which day instead?`,
    };
  }
  const from = Temporal.PlainDate.from(start);
  const day =
    when.anchor === "mixed" ? from.add({ months, days }) : from.subtract({ months, days });
  const found = resolveDay(bench, now, day.toString());
  if (!("due" in found)) return found;
  const anchor = when.anchor === "mixed" ? "was mixed on" : "is good until";
  return { ...found, notes: [`${bottle.name} ${anchor} ${showDay(from)}.`], bottle, from: start };
}

const past = (shown: string): NoMoment => ({
  reason: "in-the-past",
  sentence: `${shown} is not ahead of us. When instead?`,
});

const tooFar: NoMoment = {
  reason: "too-far",
  sentence: `That lies beyond the year ${LAST_YEAR}. When instead?`,
};
