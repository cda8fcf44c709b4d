import {
  type Day,
  instantOf,
  type Shift,
  sayDay,
  showDay,
  showTime,
  type TimeOfDay,
  zonedAt,
} from "../../domain/reminders/calendar.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import type { Listening, Unsettled } from "../reader.ts";
import type { Days } from "./day-ahead.ts";
import type { TimeOn, Times } from "./time-ahead.ts";

/** A moment ahead, as a person put it. */
export type When =
  | {
      readonly kind: "at";
      /** Milliseconds since 1970-01-01T00:00:00Z. */
      readonly at: number;
      /** The local time that was meant, where it met a clock change. */
      readonly meant?: TimeOfDay & { readonly shift: Shift };
      /** What was taken for granted, to be said. */
      readonly taken?: string;
    }
  /** Any time of that day, ISO. */
  | { readonly kind: "day"; readonly day: string }
  /** So long after a bottle was mixed, or before its limit. */
  | {
      readonly kind: "from-bottle";
      readonly months: number;
      readonly days: number;
      readonly anchor: "mixed" | "limit";
      /** Id of the bottle; missing: "it". */
      readonly bottle?: string;
    }
  /** There is no such day: "31 february". */
  | { readonly kind: "no-such-date"; readonly heard: string };

/** Offered at most; of more possibilities nobody picks one by ear. */
const MOST_CHOICES = 4;

export function whenAt(day: Day, time: TimeOn, zone: string, taken?: string): When {
  const on = time.later === undefined ? day : day.add({ days: time.later });
  const { hour, minute } = time;
  const { at, shift } = instantOf(on, { hour, minute }, zone);
  return {
    kind: "at",
    at,
    ...(shift === undefined ? {} : { meant: { hour, minute, shift } }),
    ...(taken === undefined ? {} : { taken }),
  };
}

/** The one meaning that lies ahead, or a question which of several. */
export function settle(
  { days, doubt }: Days,
  clock: Times | undefined,
  heard: string,
  { now, zone }: Listening,
): When | Unsettled<When> {
  const today = zonedAt(now, zone).toPlainDate().toString();
  const all = days
    .toSorted(Temporal.PlainDate.compare)
    .flatMap((day): readonly When[] =>
      clock === undefined
        ? [{ kind: "day", day: day.toString() }]
        : clock.times.map((time) => whenAt(day, time, zone, clock.taken)),
    );
  return settleOf(distinct(all), doubt === true, heard, now, today, zone);
}

function settleOf(
  all: readonly When[],
  doubt: boolean,
  heard: string,
  now: Instant,
  today: string,
  zone: string,
): When | Unsettled<When> {
  const ahead = all.filter((when) =>
    when.kind === "at" ? when.at > now : when.kind === "day" && when.day >= today,
  );
  const meant = doubt || ahead.length === 0 ? all : ahead;
  const [first, ...others] = meant;
  if (first === undefined) return { kind: "no-such-date", heard };
  // Nothing of it lies ahead: the latest is what was meant, and the command says no to it.
  if (others.length === 0 || ahead.length === 0) return meant.at(-1) ?? first;
  return ask(meant.slice(0, MOST_CHOICES), heard, zone);
}

/** "at 8" alone: the next time each of the times comes. */
export function settleTimes(
  { times, taken }: Times,
  heard: string,
  { now, zone }: Listening,
): When | Unsettled<When> {
  const today = zonedAt(now, zone).toPlainDate();
  const all = times.map((time) => {
    const plain = { hour: time.hour, minute: time.minute };
    const first = whenAt(today, plain, zone, taken);
    const passed = first.kind === "at" && first.at <= now;
    return passed ? whenAt(today.add({ days: 1 }), plain, zone, taken) : first;
  });
  const rising = distinct(all).toSorted((a, b) => sortKey(a) - sortKey(b));
  return settleOf(rising, false, heard, now, today.toString(), zone);
}

const sortKey = (when: When): number => (when.kind === "at" ? when.at : 0);

const distinct = (all: readonly When[]): readonly When[] => {
  const seen = new Set<string>();
  return all.filter((when) => {
    const key = when.kind === "at" ? String(when.at) : when.kind === "day" ? when.day : "";
    return !seen.has(key) && seen.add(key);
  });
};

/** Which of these: in full for the eye, short for the ear. */
export function ask(all: readonly When[], heard: string, zone: string): Unsettled<When> {
  const parts = all.map((when) => partsOf(when, zone));
  const halves = new Set(parts.map(({ time }) => time?.half)).size > 1;
  const [one, other, third] = parts;
  let say = sayMany(parts);
  if (one !== undefined && other !== undefined && third === undefined) {
    const sameDay = one.day === other.day && one.time !== undefined;
    const years = one.year !== other.year && one.time === undefined;
    if (years) say = `${one.day} or ${other.day}?`;
    else
      say = sameDay
        ? `${one.spoken} at ${one.time?.text} or ${other.time?.text}?`
        : `${one.spoken}${at(one)} or ${other.spoken}${at(other)}?`;
  }
  return {
    unsettled: "date",
    heard,
    say,
    choices: all.map((value, index) => {
      const part = parts[index];
      const time = part?.time;
      const half = halves && time !== undefined ? ` (${time.half})` : "";
      return {
        word: `${part?.day ?? ""}${time === undefined ? "" : `, ${time.text}`}${half}`,
        value,
      };
    }),
  };
}

/** Three or more: all of them where they fit in a breath, by day and hour if need be. */
function sayMany(parts: readonly Parts[]): string {
  const either = (all: readonly string[]): string =>
    `${all.slice(0, -1).join(", ")} or ${all.at(-1) ?? ""}`;
  const days = [...new Set(parts.map(({ spoken }) => spoken))];
  const hours = [...new Set(parts.flatMap(({ time }) => time?.half ?? []))];
  const crossed = days.length > 1 && hours.length > 1 && days.length * hours.length;
  const forms = [
    `${either(parts.map((part) => `${part.spoken}${at(part)}`))}?`,
    ...(days.length === 1 ? [`${days[0] ?? ""} at ${either(hours)}?`] : []),
    ...(hours.length === 1 ? [`At ${hours[0] ?? ""}: ${either(days)}?`] : []),
    ...(crossed === parts.length ? [`${either(days)}, ${either(hours)}?`] : []),
  ];
  const short = forms.find((form) => form.split(/\s+/).length <= 12);
  return short ?? "Which one? They are on the screen: say first, second, third.";
}

type Parts = {
  readonly day: string;
  readonly spoken: string;
  readonly year?: number;
  readonly time?: { readonly text: string; readonly half: string };
};

const at = ({ time }: Parts): string => (time === undefined ? "" : ` at ${time.text}`);

function partsOf(when: When, zone: string): Parts {
  if (when.kind === "day") {
    const day = Temporal.PlainDate.from(when.day);
    return { day: showDay(day), spoken: sayDay(day), year: day.year };
  }
  if (when.kind !== "at") return { day: "", spoken: "" };
  const local = zonedAt(when.at as Instant, zone);
  const day = local.toPlainDate();
  const hour = local.hour % 12 === 0 ? 12 : local.hour % 12;
  const minutes = local.minute === 0 ? "" : `:${String(local.minute).padStart(2, "0")}`;
  const half = `${hour}${minutes} ${local.hour < 12 ? "am" : "pm"}`;
  const { year } = day;
  return { day: showDay(day), spoken: sayDay(day), year, time: { text: showTime(local), half } };
}
