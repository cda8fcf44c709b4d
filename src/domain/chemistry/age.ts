import type { Origin } from "../origin.ts";
import { dayNumber, isoOfDay } from "../timing/day-number.ts";
import type { Bottle, FillLevel } from "./bottle.ts";
import { isEmptier } from "./fill.ts";

/** How long a solution keeps at each fill level, days, and where each figure comes from. */
export type Keeping = {
  readonly days: Readonly<Record<FillLevel, number>>;
  readonly origin: Origin;
  /** The paper gave the full bottle only: part-full is estimated from it, and that is said. */
  readonly estimated: boolean;
  /** In words, for `why`. */
  readonly how: string;
};

/** A keeping time of none is counted as so little, days: an age is a number all the same. */
const LEAST_DAYS = 1e-3;

type Span = { readonly from: string; readonly fill: FillLevel };

/**
 * The fill levels as spans of whole days. A day on which a bottle was opened counts at the
 * emptiest it stood that day: a pour counts from its day, a refill from the day after. So the age
 * clock only ever runs faster for being opened.
 */
export function fillSpans(bottle: Pick<Bottle, "mixedOn" | "fills">): readonly Span[] {
  const [first, ...later] = bottle.fills ?? [];
  const spans: Span[] = [];
  const stands = (from: string, fill: FillLevel): void => {
    if (spans.at(-1)?.from === from) spans.pop();
    if (spans.at(-1)?.fill !== fill) spans.push({ from, fill });
  };
  let current = first?.fill ?? "full";
  stands(bottle.mixedOn, current);
  for (const on of new Set(later.map((change) => change.on))) {
    const levels = later.filter((change) => change.on === on).map(({ fill }) => fill);
    stands(
      on,
      [current, ...levels].reduce((least, fill) => (isEmptier(fill, least) ? fill : least)),
    );
    current = levels.at(-1) ?? current;
    stands(dayAfter(on, 1), current);
  }
  return spans;
}

/**
 * How much of its keeping time a bottle has used by a day: the sum over its spans of days by the
 * keeping time at that fill. 1 is the end. Never falls as days go by or as it is poured from.
 */
export function ageShare(
  bottle: Pick<Bottle, "mixedOn" | "fills">,
  keeping: Pick<Keeping, "days">,
  today: string,
): number {
  const spans = fillSpans(bottle);
  let share = 0;
  for (const [index, { from, fill }] of spans.entries()) {
    const to = spans[index + 1]?.from ?? today;
    const end = to < today ? to : today;
    if (from < end) share += days(from, end) / Math.max(LEAST_DAYS, keeping.days[fill]);
  }
  return share;
}

/** The last day inside the keeping time, ISO, when the bottle stands as it does now. */
export function dueOn(
  bottle: Pick<Bottle, "mixedOn" | "fills">,
  keeping: Pick<Keeping, "days">,
): string {
  const spans = fillSpans(bottle);
  let share = 0;
  for (const [index, { from, fill }] of spans.entries()) {
    const keeps = keeping.days[fill];
    const next = spans[index + 1]?.from;
    const span = next === undefined ? Number.POSITIVE_INFINITY : days(from, next);
    // What keeps for no time at all is due on the day it was mixed.
    if (!(keeps > 0)) return from;
    if (share + span / keeps >= 1 - 1e-9) {
      return dayAfter(from, Math.floor((1 - share) * keeps + 1e-6));
    }
    share += span / keeps;
  }
  throw new Error("the last span has no end");
}

const days = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

const dayAfter = (from: string, by: number): string => isoOfDay(dayNumber(from) + by);
