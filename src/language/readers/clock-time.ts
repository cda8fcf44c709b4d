import type { Reading } from "../reader.ts";
import { readBelowHundred } from "./cardinal.ts";
import { numeral } from "./numeral.ts";
import { byLength, phrases } from "./phrases.ts";
import { type Unreadable, unreadable } from "./unreadable.ts";

/** A time of day. `ambiguous` when morning or evening was not said and either could be meant. */
export type ClockTime = {
  readonly hour: number;
  readonly minute: number;
  readonly ambiguous?: true;
  /** Written with a colon and no "am" or "pm": as a 24-hour clock writes it. */
  readonly figures?: true;
};
type Heard = {
  readonly hour: number;
  readonly minute: number;
  readonly certain?: boolean;
  readonly figures?: boolean;
};
type Read = readonly Reading<ClockTime | Unreadable>[];

const readHalf = phrases<"am" | "pm">([
  ["am", "am, a m, in the morning, this morning"],
  [
    "pm",
    "pm, p m, in the afternoon, in the evening, this afternoon, this evening, tonight, at night",
  ],
]);
const readNamed = phrases<ClockTime>([
  [{ hour: 12, minute: 0 }, "noon, midday, twelve noon, 12 noon"],
  [{ hour: 0, minute: 0 }, "midnight, twelve midnight, 12 midnight"],
]);

/** The slot `{clock}`: "at 7:45 pm", "19:30", "half past seven", "7 pm", "seven thirty". */
export function readClock(words: readonly string[], from: number): Read {
  const start = words[from] === "at" || words[from] === "by" ? from + 1 : from;
  const heard = [
    ...readWritten(words, start),
    ...readPast(words, start),
    ...readSpoken(words, start),
  ];
  return byLength([
    ...readNamed(words, start),
    ...heard.flatMap(({ value, next }) => withHalf(words, from, value, next)),
  ]);
}

/** "7:45", "07:45", "19:30", "7.45" and "7". A leading zero or a late hour leaves no doubt. */
function readWritten(words: readonly string[], from: number): readonly Reading<Heard>[] {
  const word = words[from] ?? "";
  const match = /^(\d{1,2})[:.h](\d\d)$/.exec(word) ?? /^(\d{1,2})$/.exec(word);
  if (match === null) return [];
  const certain = /^0\d/.test(word);
  const figures = match[2] !== undefined;
  const value = { hour: Number(match[1]), minute: Number(match[2] ?? 0), certain, figures };
  return [{ value, next: from + 1 }];
}

function readSpoken(words: readonly string[], from: number): readonly Reading<Heard>[] {
  const hour = readSmall(words, from);
  if (hour === undefined) return [];
  const oh = words[hour.next] === "oh" ? hour.next + 1 : hour.next;
  const minute = readBelowHundred(words, oh);
  const alone = { value: { hour: hour.value, minute: 0 }, next: hour.next };
  const plain = /^\d/.test(words[from] ?? "") ? [] : [alone];
  const whole = /^o'?clock$/.test(words[hour.next] ?? "")
    ? [{ value: alone.value, next: hour.next + 1 }]
    : [];
  if (minute === undefined || minute.value > 59 || oh > hour.next !== minute.value < 10) {
    return [...whole, ...plain];
  }
  return [{ value: { hour: hour.value, minute: minute.value }, next: minute.next }, ...plain];
}

const named: ReadonlyMap<string, number> = new Map([
  ["half", 30],
  ["quarter", 15],
]);

/** "half past seven", "quarter to eight", "ten past six", "half seven" (half past, as in Britain). */
function readPast(words: readonly string[], from: number): readonly Reading<Heard>[] {
  const article = words[from] === "a" ? from + 1 : from;
  const share = named.get(words[article] ?? "");
  const head = share === undefined ? readSmall(words, from) : { value: share, next: article + 1 };
  if (head === undefined || head.value > 59) return [];
  const unit = /^minutes?$/.test(words[head.next] ?? "") ? head.next + 1 : head.next;
  const way = words[unit] ?? "";
  const past = way === "past" || way === "after";
  const to = way === "to" || way === "till" || way === "before";
  const british = share === 30 && !past && !to;
  if (!past && !to && !british) return [];
  const hour = readSmall(words, british ? unit : unit + 1);
  if (hour === undefined) return [];
  const value = to
    ? { hour: hour.value === 0 ? 23 : hour.value - 1, minute: 60 - head.value }
    : { hour: hour.value, minute: head.value };
  if (value.minute === 60) return [];
  return [{ value: value.hour === 0 && to ? { ...value, hour: 12 } : value, next: hour.next }];
}

/** A whole number of at most two digits, in digits or words. */
function readSmall(words: readonly string[], from: number): Reading<number> | undefined {
  const word = words[from] ?? "";
  const written = /^\d{1,2}$/.test(word) ? numeral(word) : undefined;
  return written === undefined ? readBelowHundred(words, from) : { value: written, next: from + 1 };
}

function withHalf(words: readonly string[], from: number, heard: Heard, next: number): Read {
  const half = readHalf(words, next)[0];
  const plain = { value: settle(heard) ?? unreadable(words, from, next), next };
  if (half === undefined) return [plain];
  const value = settle(heard, half.value) ?? unreadable(words, from, half.next);
  return [{ value, next: half.next }, plain];
}

function settle(heard: Heard, half?: "am" | "pm"): ClockTime | undefined {
  const { hour, minute, certain, figures } = heard;
  if (hour > 23 || minute > 59) return undefined;
  if (half === undefined || hour > 12 || hour === 0) {
    const clear = certain === true || hour > 12 || hour === 0;
    if (clear) return { hour, minute };
    return { hour, minute, ambiguous: true, ...(figures === true ? { figures } : {}) };
  }
  return { hour: (hour % 12) + (half === "pm" ? 12 : 0), minute };
}
