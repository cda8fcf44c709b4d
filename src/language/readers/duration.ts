import type { Listening, Reading, Unsettled } from "../reader.ts";
import { readBelowHundred } from "./cardinal.ts";
import { bareNumber, isArticle, readNumber } from "./number.ts";
import { byLength, orBare, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/** Seconds. */
export type DurationValue = number | Unsettled<number> | Unreadable;
type Read = readonly Reading<DurationValue>[];

/** Seconds to one of each; the names are common usage, no source. */
const readUnit = phrases<number>([
  [1, "s, sec, secs, second, seconds"],
  [60, "m, min, mins, minute, minutes"],
  [3600, "h, hr, hrs, hour, hours"],
  [86_400, "day, days"],
  [604_800, "week, weeks"],
  [1_209_600, "fortnight, fortnights"],
]);

/** The slot `{duration}`: "3:15", "three fifteen", "3 min 15", "an hour and a half", "90 s". */
export const readDuration = (words: readonly string[], from: number, _listening: Listening): Read =>
  orBare<DurationValue>([...readColons(words, from), ...readUnits(words, from)], () =>
    byLength<DurationValue>([
      ...readMinutesThenSeconds(words, from),
      ...bareNumber(words, from)
        .filter(({ next }) => !counted.has(words[next] ?? ""))
        .map(({ value, next }) => ({
          value: isUnreadable(value) ? value : askUnit(value, words, from, next),
          next,
        })),
    ]),
  );

/** "3:15" is minutes and seconds, "1:30:00" has hours. */
function readColons(words: readonly string[], from: number): Read {
  const match = /^([-+]?)(?:(\d+):)?(\d+):(\d\d)$/.exec(words[from] ?? "");
  if (match === null) return [];
  const [hours, minutes, rest] = [match[2] ?? 0, match[3], match[4]].map(Number);
  const next = from + 1;
  if (hours === undefined || minutes === undefined || rest === undefined) return [];
  const tooMany = rest > 59 || (match[2] !== undefined && minutes > 59);
  const value = hours * 3600 + minutes * 60 + rest;
  if (tooMany || !Number.isFinite(value)) return [{ value: unreadable(words, from, next), next }];
  return [{ value: match[1] === "-" ? -value : value, next }];
}

/** "three fifteen", "six thirty", "two oh five": minutes and seconds where a duration is wanted. */
function readMinutesThenSeconds(words: readonly string[], from: number): Read {
  const minutes = readBelowHundred(words, from);
  if (minutes === undefined || minutes.value < 1) return [];
  const oh = words[minutes.next] === "oh";
  const rest = readBelowHundred(words, minutes.next + (oh ? 1 : 0));
  if (rest === undefined || rest.value > 59 || rest.value < 1) return [];
  if (oh !== rest.value < 10) return [];
  return [{ value: minutes.value * 60 + rest.value, next: rest.next }];
}

/** A running sum: seconds so far, the last unit, and whether what follows is taken off. */
type Sum = { readonly value: number; readonly unit: number; readonly sign: 1 | -1 };

/** Numbers with units going down: "1 h 05 min", "3 minutes and 15 seconds", "3 min 15". */
function readUnits(words: readonly string[], from: number): Read {
  return readOne(words, from).flatMap(({ value, next }): Read => {
    if (isUnreadable(value)) return [{ value: unreadable(words, from, next), next }];
    return goOn(words, value, next).map((sum) => ({
      value: Number.isFinite(sum.value.value) ? sum.value.value : unreadable(words, from, sum.next),
      next: sum.next,
    }));
  });
}

function goOn(words: readonly string[], sum: Sum, next: number): readonly Reading<Sum>[] {
  const here: Reading<Sum> = { value: sum, next };
  const behind = words[next] === "and" ? next + 1 : next;
  for (const { value: more, next: end } of readOne(words, behind)) {
    if (isUnreadable(more) || more.unit >= sum.unit || more.sign < 0) continue;
    const grown = { ...sum, value: sum.value + sum.sign * more.value, unit: more.unit };
    return [...goOn(words, grown, end), here];
  }
  const below = sum.unit === 3600 ? 60 : sum.unit === 60 ? 1 : undefined;
  const bare = below === undefined ? undefined : readBare(words, next);
  if (below === undefined || bare === undefined) return [here];
  const value = sum.value + sum.sign * bare.value * below;
  return [{ value: { ...sum, value, unit: below }, next: bare.next }, here];
}

/** The "15" of "3 min 15": a whole number of the next unit down. */
function readBare(words: readonly string[], from: number): Reading<number> | undefined {
  return readNumber(words, from).find(
    (reading): reading is Reading<number> =>
      !isUnreadable(reading.value) &&
      !isArticle(words, from, reading.next) &&
      Number.isInteger(reading.value) &&
      reading.value > 0 &&
      reading.value < 60 &&
      !counted.has(words[reading.next] ?? ""),
  );
}

/** A number before one of these counts things: "5 minutes one roll" is five minutes, "3 rolls" no time. */
const counted = new Set([
  "roll",
  "rolls",
  "sheet",
  "sheets",
  "film",
  "films",
  "unit",
  "units",
  "x",
]);

/** One number with its unit: "two and a half minutes", "half an hour", "a minute and a half". */
function readOne(words: readonly string[], from: number): readonly Reading<Sum | Unreadable>[] {
  return readNumber(words, from).flatMap((number): readonly Reading<Sum | Unreadable>[] =>
    readUnit(words, number.next).flatMap(
      ({ value: unit, next }): readonly Reading<Sum | Unreadable>[] => {
        if (isUnreadable(number.value)) return [{ value: unreadable(words, from, next), next }];
        const amount = number.value;
        const sign = amount < 0 || Object.is(amount, -0) ? -1 : 1;
        const plain = { value: { value: amount * unit, unit, sign } as const, next };
        const tail = tailBehind(words, next);
        if (tail === undefined || !Number.isInteger(amount)) return [plain];
        const whole = { value: (amount + sign * tail.value) * unit, unit, sign } as const;
        return [{ value: whole, next: tail.next }, plain];
      },
    ),
  );
}

const tails: ReadonlyMap<string, number> = new Map([
  ["half", 1 / 2],
  ["quarter", 1 / 4],
]);

function tailBehind(words: readonly string[], from: number): Reading<number> | undefined {
  if (words[from] !== "and") return undefined;
  const tail = words[from + 1] === "a" ? from + 2 : from + 1;
  const value = tails.get(words[tail] ?? "");
  const unitFollows = words[tail + 1] === "a" || words[tail + 1] === "of";
  return value === undefined || unitFollows ? undefined : { value, next: tail + 1 };
}

function askUnit(
  amount: number,
  words: readonly string[],
  from: number,
  next: number,
): DurationValue {
  if (!Number.isFinite(amount * 60)) return unreadable(words, from, next);
  return {
    unsettled: "duration-unit",
    heard: words.slice(from, next).join(" "),
    choices: [
      { word: "minutes", value: amount * 60 },
      { word: "seconds", value: amount },
    ],
  };
}
