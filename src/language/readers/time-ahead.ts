import type { TimeOfDay } from "../../domain/reminders/calendar.ts";
import type { Reading } from "../reader.ts";
import { readClock } from "./clock-time.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable } from "./unreadable.ts";

/** A time on a day; `later` when it lies on the day after, as one in the night does. */
export type TimeOn = TimeOfDay & { readonly later?: 1 };

/** The times a phrase can mean, and what was taken for granted. */
export type Times = { readonly times: readonly TimeOn[]; readonly taken?: string };

export type Part = "morning" | "afternoon" | "evening" | "night";

/** What a part of the day means without a clock time. Common practice, no source; always said. */
const usual: Readonly<Record<Part, TimeOfDay>> = {
  morning: { hour: 9, minute: 0 },
  afternoon: { hour: 15, minute: 0 },
  evening: { hour: 19, minute: 0 },
  night: { hour: 20, minute: 0 },
};

export const readPart = phrases<Part>([
  ["morning", "morning, in the morning, mornings"],
  ["afternoon", "afternoon, in the afternoon, afternoons"],
  ["evening", "evening, in the evening, evenings"],
  ["night", "night, at night, nights"],
]);

/** These name a part of a day, or the day itself: read apart from the clock time. */
const partWords = new Set(["morning", "afternoon", "evening", "night", "tonight"]);

const two = (n: number): string => String(n).padStart(2, "0");

export const timesOfPart = (part: Part, said: string = part): Times => {
  const time = usual[part];
  return { times: [time], taken: `"${said}" is taken as ${two(time.hour)}:${two(time.minute)}` };
};

type Clock = TimeOfDay & { readonly open: boolean; readonly midnight: boolean };

/**
 * A clock time that says it is one: "at 8", "8 pm", "20:00", "half eight", "noon". A bare number
 * is none: "friday 8" may be a date.
 */
export function readTimeAhead(words: readonly string[], from: number): readonly Reading<Clock>[] {
  const start = words[from] === "around" || words[from] === "about" ? from + 1 : from;
  const said = words[start] === "at" || words[start] === "by";
  const french = readFrench(words, said ? start + 1 : start);
  const read = readClock(words, start).flatMap(({ value, next }): readonly Reading<Clock>[] => {
    if (isUnreadable(value) || partWords.has(words[next - 1] ?? "")) return [];
    const some = words.slice(start, next);
    // "8 in the evening"
    const parted = words[next] === "in" && readPart(words, next).length > 0;
    if (!said && !parted && !some.some(looksLikeTime)) return [];
    // "12.11" may be a date: only "at 12.11" is a time.
    if (!said && /^\d+\.\d+$/.test(some[0] ?? "") && some.length === 1) return [];
    const midnight = some.includes("midnight");
    const { hour, minute } = value;
    return [{ value: { hour, minute, open: value.ambiguous === true, midnight }, next }];
  });
  return byLength([...french, ...read]);
}

const looksLikeTime = (word: string): boolean =>
  /^\d{1,2}[:.]\d\d$/.test(word) ||
  /^(?:am|pm|a|o'?clock|noon|midday|midnight|past|to|half|quarter)$/.test(word);

/** "19h30", "19h": the words are cut to "19 h 30". */
function readFrench(words: readonly string[], from: number): readonly Reading<Clock>[] {
  if (words[from + 1] !== "h" || !/^\d{1,2}$/.test(words[from] ?? "")) return [];
  const hour = Number(words[from]);
  const written = /^\d\d$/.test(words[from + 2] ?? "") ? Number(words[from + 2]) : undefined;
  const minute = written !== undefined && written < 60 ? written : 0;
  if (hour < 13 || hour > 23) return [];
  const next = written === minute ? from + 3 : from + 2;
  return [{ value: { hour, minute, open: false, midnight: false }, next }];
}

/** What a clock time can mean with a part of the day beside it; nothing when the two disagree. */
export function timesOf(clock: Clock, part: Part | undefined): Times | undefined {
  const { hour, minute, open, midnight } = clock;
  const early: TimeOn = { hour: hour % 12, minute };
  const late: TimeOn = { hour: (hour % 12) + 12, minute };
  const next = (time: TimeOn): TimeOn => ({ ...time, later: 1 });
  if (midnight) {
    // "Friday at midnight": where Friday begins or where it ends.
    return { times: part === "night" ? [next(early)] : [early, next(early)] };
  }
  if (!open) {
    const fits =
      part === undefined || (part === "morning" ? hour < 12 : hour >= 12 || part === "night");
    return fits ? { times: [{ hour, minute }] } : undefined;
  }
  switch (part) {
    case undefined:
      return { times: hour === 12 ? [late, next(early)] : [early, late] };
    case "morning":
      return hour === 12 ? undefined : { times: [early] };
    case "afternoon":
      return hour === 12 || hour < 8 ? { times: [late] } : undefined;
    case "evening":
      return hour === 12 ? { times: [next(early)] } : hour > 3 ? { times: [late] } : undefined;
    case "night":
      if (hour > 5 && hour < 12) return { times: [late] };
      return { times: [next(early)] };
  }
}
