import { zonedAt } from "../../domain/reminders/calendar.ts";
import { instant } from "../../domain/units/quantity.ts";
import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readBottleMoment } from "./bottle-moment.ts";
import { readDays, shift } from "./day-ahead.ts";
import { byLength } from "./phrases.ts";
import { readSpan, type Span } from "./span.ts";
import { readPart, readTimeAhead, type Times, timesOf, timesOfPart } from "./time-ahead.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";
import { settle, settleTimes, type When } from "./when.ts";

export type WhenValue = When | Unsettled<When> | Unreadable;
type Read = readonly Reading<WhenValue>[];

/**
 * The slot `{when}`: a moment ahead, once. "friday 8pm", "tomorrow at 8", "in an hour and a half",
 * "a week from friday", "on the 15th at 6pm". What has more than one meaning comes back as a
 * question with every meaning in full.
 */
export function readWhen(words: readonly string[], from: number, listening: Listening): Read {
  if (from >= words.length) return [];
  return byLength<WhenValue>([
    ...readBottleMoment(words, from, listening),
    ...readIn(words, from, listening),
    ...readDayThenTime(words, from, listening),
    ...readTimeThenDay(words, from, listening),
    ...readIsoInstant(words, from, listening),
  ]);
}

const heardOf = (words: readonly string[], from: number, next: number): string =>
  words.slice(from, next).join(" ");

/** "friday", "friday 8pm", "tomorrow morning", "sunday morning at 10", "tonight at 8". */
function readDayThenTime(words: readonly string[], from: number, listening: Listening): Read {
  const today = zonedAt(listening.now, listening.zone).toPlainDate();
  return readDays(words, from, today).flatMap(({ value: days, next }): Read => {
    const value = (end: number, clock: Times | undefined): Reading<WhenValue> => ({
      value: settle(days, clock, heardOf(words, from, end), listening),
      next: end,
    });
    const said = days.part === undefined ? readPart(words, next)[0] : undefined;
    const part = days.part ?? said?.value;
    const behind = said?.next ?? next;
    const found: Reading<WhenValue>[] = [
      value(
        behind,
        part === undefined ? undefined : timesOfPart(part, wordOf(words, from, behind)),
      ),
    ];
    if (said !== undefined) found.push(value(next, undefined));
    for (const { value: clock, next: end } of readTimeAhead(words, behind)) {
      const late = part === undefined ? readPart(words, end)[0] : undefined;
      if (late !== undefined) {
        const times = timesOf(clock, late.value);
        if (times !== undefined) found.push(value(late.next, times));
      }
      const times = timesOf(clock, part);
      if (times !== undefined) found.push(value(end, times));
    }
    return found;
  });
}

/** "tonight" and "this evening" are said back; of "friday evening" the evening. */
const wordOf = (words: readonly string[], from: number, next: number): string =>
  words.slice(Math.max(from, next - (words[next - 2] === "this" ? 2 : 1)), next).join(" ");

/** "8pm friday", "at 6 on the 15th", "at 8 tomorrow morning", "at 8 in the evening", "at 8". */
function readTimeThenDay(words: readonly string[], from: number, listening: Listening): Read {
  const today = zonedAt(listening.now, listening.zone).toPlainDate();
  return readTimeAhead(words, from).flatMap(({ value: clock, next }): Read => {
    const found: Reading<WhenValue>[] = [];
    for (const { value: days, next: end } of readDays(words, next, today)) {
      const said = days.part === undefined ? readPart(words, end)[0] : undefined;
      for (const [part, last] of [
        [days.part ?? said?.value, said?.next ?? end] as const,
        ...(said === undefined ? [] : [[undefined, end] as const]),
      ]) {
        const times = timesOf(clock, part);
        if (times === undefined) continue;
        const value = settle(days, times, heardOf(words, from, last), listening);
        found.push({ value, next: last });
      }
    }
    const part = readPart(words, next)[0];
    for (const [one, end] of [
      [part?.value, part?.next ?? next] as const,
      [undefined, next] as const,
    ]) {
      const times = timesOf(clock, one);
      if (times === undefined) continue;
      found.push({ value: settleTimes(times, heardOf(words, from, end), listening), next: end });
    }
    return found;
  });
}

/** "in two weeks", "in 90 minutes", "an hour from now", "in 3 days at 6pm", "in a week's time". */
function readIn(words: readonly string[], from: number, listening: Listening): Read {
  const said = words[from] === "in" || words[from] === "within";
  const start = said ? from + 1 : from;
  return readSpan(words, start).flatMap(({ value: span, next }): Read => {
    const now = words[next] === "from" && words[next + 1] === "now";
    if (!said && !now) return [];
    const time = words[next] === "time" ? next + 1 : next;
    const behind = now ? next + 2 : time;
    if (isUnreadable(span)) return [{ value: span, next: behind }];
    const plain = {
      value: ahead(span, heardOf(words, from, behind), listening),
      next: behind,
    };
    if (span.ms !== 0 || !Number.isInteger(span.days) || !Number.isInteger(span.months)) {
      return [plain];
    }
    const zoned = zonedAt(listening.now, listening.zone);
    const days = { days: [shift(zoned.toPlainDate(), span, 1)] };
    const timed = readTimeAhead(words, behind).flatMap(({ value: clock, next: end }): Read => {
      const part = readPart(words, end)[0];
      const last = part?.next ?? end;
      const times = timesOf(clock, part?.value);
      if (times === undefined) return [];
      return [{ value: settle(days, times, heardOf(words, from, last), listening), next: last }];
    });
    return [...timed, plain];
  });
}

/** Whole days are a day; hours are time that goes by; half a week can be two days. */
function ahead(span: Span, heard: string, listening: Listening): WhenValue {
  const { now, zone } = listening;
  const { months, days, ms } = span;
  if (months < 0 || days < 0 || ms < 0) return { kind: "no-such-date", heard };
  const zoned = zonedAt(now, zone);
  const wholeMonths = Math.floor(months);
  const rest = (months - wholeMonths) * 30;
  const exact = days + rest;
  const short = months === 0 && days < 2 && !Number.isInteger(days);
  if (ms > 0 || short) {
    const local = zoned.add({ months: wholeMonths, days: short ? 0 : Math.floor(exact) });
    const by = ms + (short ? days * 86_400_000 : 0);
    return { kind: "at", at: instant(Math.round(local.epochMilliseconds + by)) };
  }
  const from = zoned.toPlainDate().add({ months: wholeMonths });
  const both = new Set([Math.floor(exact), Math.ceil(exact)]);
  return settle(
    { days: [...both].map((by) => from.add({ days: by })) },
    undefined,
    heard,
    listening,
  );
}

/** "2026-12-04t20:00", with or without an offset. */
function readIsoInstant(words: readonly string[], from: number, { zone }: Listening): Read {
  const word = words[from] ?? "";
  if (!/^\d{4}-\d\d-\d\dt\d\d:\d\d/.test(word)) return [];
  const next = from + 1;
  try {
    const text = word.toUpperCase();
    const at = /(?:Z|[+-]\d\d:?\d\d)$/.test(text)
      ? Temporal.Instant.from(text)
      : Temporal.PlainDateTime.from(text).toZonedDateTime(zone);
    return [{ value: { kind: "at", at: instant(at.epochMilliseconds) }, next }];
  } catch {
    return [{ value: { kind: "no-such-date", heard: word }, next }];
  }
}
