import type { Reading } from "../reader.ts";
import { isArticle, readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/**
 * A length of time as the calendar counts it: months and days are steps on the calendar, ms are
 * time that really goes by. "24 hours" is no day where the clocks change.
 */
export type Span = { readonly months: number; readonly days: number; readonly ms: number };

type Unit = { readonly months?: number; readonly days?: number; readonly ms?: number };

const readUnit = phrases<Unit>([
  [{ ms: 1000 }, "s, sec, secs, second, seconds"],
  [{ ms: 60_000 }, "m, min, mins, minute, minutes"],
  [{ ms: 3_600_000 }, "h, hr, hrs, hour, hours"],
  [{ days: 1 }, "d, day, days"],
  [{ days: 7 }, "week, weeks, wk, wks"],
  [{ days: 14 }, "fortnight, fortnights"],
  [{ months: 1 }, "month, months"],
  [{ months: 12 }, "year, years, yr, yrs"],
]);

const MINUTE = 60_000;
/** Farther is no plan but a slip: a hundred years. */
const MOST_DAYS = 36_525;
const tails: ReadonlyMap<string, number> = new Map([
  ["half", 1 / 2],
  ["quarter", 1 / 4],
]);

const sizeOf = ({ months = 0, days = 0, ms = 0 }: Unit): number =>
  months * 30 + days + ms / 86_400_000;

const plus = (one: Span, unit: Unit, by: number): Span => ({
  months: one.months + by * (unit.months ?? 0),
  days: one.days + by * (unit.days ?? 0),
  ms: one.ms + by * (unit.ms ?? 0),
});

const none: Span = { months: 0, days: 0, ms: 0 };

/** "two weeks", "an hour and a half", "1h30", "3 weeks and 2 days", "half a year". Longest first. */
export function readSpan(
  words: readonly string[],
  from: number,
): readonly Reading<Span | Unreadable>[] {
  const found = readOne(words, from).flatMap((first) =>
    isUnreadable(first.value)
      ? [{ value: first.value, next: first.next }]
      : goOn(words, plus(none, first.value.unit, first.value.count), first.value.unit, first.next),
  );
  return byLength(
    found.map(({ value, next }) => ({
      value: isUnreadable(value) || isSensible(value) ? value : unreadable(words, from, next),
      next,
    })),
  );
}

const isSensible = ({ months, days, ms }: Span): boolean =>
  Math.abs(months) * 31 + Math.abs(days) + Math.abs(ms) / 86_400_000 <= MOST_DAYS;

type One = { readonly unit: Unit; readonly count: number };

/** One number with its unit, and "and a half" behind it. */
function readOne(words: readonly string[], from: number): readonly Reading<One | Unreadable>[] {
  return readNumber(words, from).flatMap((number): readonly Reading<One | Unreadable>[] =>
    readUnit(words, number.next).flatMap(
      ({ value: unit, next }): readonly Reading<One | Unreadable>[] => {
        if (isUnreadable(number.value)) return [{ value: unreadable(words, from, next), next }];
        const count = number.value;
        const plain = { value: { unit, count }, next };
        const half = words[next + 1] === "a" ? next + 2 : next + 1;
        const tail = words[next] === "and" ? tails.get(words[half] ?? "") : undefined;
        // "an hour and a quarter of an hour" is no tail.
        const more = ["a", "an", "of", "hour", "hours"].includes(words[half + 1] ?? "");
        if (tail === undefined || more || !Number.isInteger(count)) return [plain];
        return [{ value: { unit, count: count + Math.sign(count) * tail }, next: half + 1 }, plain];
      },
    ),
  );
}

function goOn(
  words: readonly string[],
  sum: Span,
  last: Unit,
  next: number,
): readonly Reading<Span | Unreadable>[] {
  const here: Reading<Span> = { value: sum, next };
  const behind = words[next] === "and" ? next + 1 : next;
  for (const { value: more, next: end } of readOne(words, behind)) {
    if (isUnreadable(more) || more.count < 0 || sizeOf(more.unit) >= sizeOf(last)) continue;
    return [...goOn(words, plus(sum, more.unit, more.count), more.unit, end), here];
  }
  // The "30" of "1h30".
  const bare = last.ms === 60 * MINUTE ? readNumber(words, next)[0] : undefined;
  if (bare === undefined || isUnreadable(bare.value) || isArticle(words, next, bare.next)) {
    return [here];
  }
  const minutes = bare.value;
  if (!Number.isInteger(minutes) || minutes < 1 || minutes > 59) return [here];
  return [{ value: { ...sum, ms: sum.ms + minutes * MINUTE }, next: bare.next }, here];
}
