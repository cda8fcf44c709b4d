import type { Reading } from "../reader.ts";
import { readCardinal, readDecimals } from "./cardinal.ts";
import { isFraction, numeral } from "./numeral.ts";
import { byLength } from "./phrases.ts";
import { type Unreadable, unreadable } from "./unreadable.ts";

type Numbers = readonly Reading<number | Unreadable>[];

/**
 * Every number that starts at `from`, longest first: digits or words, halves and quarters, "a" and
 * "an" as one, "a couple of", "half a" before a unit. What is a number but no finite one comes back
 * as unreadable, so that nobody goes on with an infinity.
 */
export function readNumber(words: readonly string[], from: number): Numbers {
  const word = words[from];
  if (word === undefined) return [];
  if (word === "minus" || word === "negative") {
    return readUnsigned(words, from + 1).map(({ value, next }) => ({
      value: typeof value === "number" ? -value : unreadable(words, from, next),
      next,
    }));
  }
  return readUnsigned(words, from);
}

/** The slot `{number}`: as above, where a lone "a" is too little to be an answer. */
export const numberReader = (words: readonly string[], from: number): Numbers =>
  readNumber(words, from).filter(({ next }) => !isArticle(words, from, next));

const loose: ReadonlySet<string> = new Set(["a", "an", "half", "quarter", "third", "of"]);

/** A number that can stand without its unit and be asked about: not "a", "half" or "a quarter". */
export const bareNumber = (words: readonly string[], from: number): Numbers =>
  readNumber(words, from).filter(
    ({ next }) => !words.slice(from, next).every((word) => loose.has(word)),
  );

export const isArticle = (words: readonly string[], from: number, next: number): boolean =>
  next === from + 1 && (words[from] === "a" || words[from] === "an");

function readUnsigned(words: readonly string[], from: number): Numbers {
  const wholes = readWhole(words, from);
  return byLength([
    ...wholes.flatMap((whole) => withFraction(words, whole)),
    ...wholes.map(({ value, next }) => ({
      value: Number.isFinite(value) ? value : unreadable(words, from, next),
      next,
    })),
    ...readShare(words, from),
    ...readCollective(words, from),
  ]);
}

/** A number without a spoken fraction. A value that is not finite is left for the caller to refuse. */
function readWhole(words: readonly string[], from: number): readonly Reading<number>[] {
  const word = words[from] ?? "";
  const written = numeral(word);
  if (written !== undefined)
    return scaled(words, pointed(words, { value: written, next: from + 1 }));
  if (word === "point")
    return pointed(words, { value: 0, next: from }).filter((r) => r.next > from);
  const spoken = readCardinal(words, from);
  if (spoken !== undefined) {
    const readings = pointed(words, spoken);
    return word === "a" || word === "an" ? [...readings, { value: 1, next: from + 1 }] : readings;
  }
  return word === "a" || word === "an" ? [{ value: 1, next: from + 1 }] : [];
}

/** "thirty seven point five", with the number before the point as the shorter reading. */
function pointed(words: readonly string[], whole: Reading<number>): readonly Reading<number>[] {
  if (words[whole.next] !== "point" || !Number.isInteger(whole.value)) return [whole];
  const decimals = readDecimals(words, whole.next + 1);
  if (decimals === undefined) return [whole];
  const tail = Number(`0.${decimals.value}`);
  const value = whole.value < 0 ? whole.value - tail : whole.value + tail;
  return [{ value: exact(value, decimals.value.length), next: decimals.next }, whole];
}

/** 37 + 0.8 is 37.8, not one bit beside it. */
const exact = (value: number, places: number): number =>
  Number(value.toFixed(Math.min(places, 15)));

const factors: ReadonlyMap<string, number> = new Map([
  ["hundred", 100],
  ["thousand", 1e3],
  ["million", 1e6],
]);

/** "2 thousand", "1.5 million". */
function scaled(
  words: readonly string[],
  readings: readonly Reading<number>[],
): readonly Reading<number>[] {
  return readings.flatMap(({ value, next }) => {
    const factor = factors.get(words[next] ?? "");
    const plain = { value, next };
    return factor === undefined ? [plain] : [{ value: value * factor, next: next + 1 }, plain];
  });
}

const shares: ReadonlyMap<string, number> = new Map([
  ["half", 1 / 2],
  ["third", 1 / 3],
  ["thirds", 1 / 3],
  ["quarter", 1 / 4],
  ["quarters", 1 / 4],
  ["fourth", 1 / 4],
  ["fourths", 1 / 4],
  ["eighth", 1 / 8],
  ["eighths", 1 / 8],
]);

const shareCounts: ReadonlyMap<string, number> = new Map([
  ["a", 1],
  ["an", 1],
  ["one", 1],
  ["two", 2],
  ["three", 3],
  ["five", 5],
  ["seven", 7],
]);

/** "half", "a quarter", "three quarters", "two thirds". */
function share(words: readonly string[], from: number): Reading<number> | undefined {
  const bare = shares.get(words[from] ?? "");
  if (bare !== undefined) return { value: bare, next: from + 1 };
  const part = shares.get(words[from + 1] ?? "");
  if (part === undefined) return undefined;
  const count = shareCounts.get(words[from] ?? "");
  return count === undefined ? undefined : { value: count * part, next: from + 2 };
}

/** "two and a half", "2 1/2", "2 and 1/2". */
function withFraction(
  words: readonly string[],
  whole: Reading<number>,
): readonly Reading<number>[] {
  if (!Number.isInteger(whole.value)) return [];
  const { value, next } = whole;
  const sign = value < 0 ? -1 : 1;
  const behind = words[next] === "and" ? next + 1 : next;
  const fraction = words[behind];
  if (isFraction(fraction))
    return [{ value: value + sign * (numeral(fraction) ?? 0), next: behind + 1 }];
  if (behind === next) return [];
  const spoken = share(words, behind);
  return spoken === undefined ? [] : [{ value: value + sign * spoken.value, next: spoken.next }];
}

/** A share by itself, and with the article of the unit behind it: "half a", "quarter of an". */
function readShare(words: readonly string[], from: number): readonly Reading<number>[] {
  const part = share(words, from);
  if (part === undefined) return [];
  const of = words[part.next] === "of" ? part.next + 1 : part.next;
  const article = words[of] === "a" || words[of] === "an" ? of + 1 : undefined;
  const dozen = article !== undefined && words[article] === "dozen";
  return [
    ...(dozen ? [{ value: part.value * 12, next: article + 1 }] : []),
    ...(article === undefined ? [] : [{ value: part.value, next: article }]),
    part,
  ];
}

const collectives: ReadonlyMap<string, number> = new Map([
  ["couple", 2],
  ["pair", 2],
  ["dozen", 12],
]);

/** "a couple of", "two dozen", "a pair of". */
function readCollective(words: readonly string[], from: number): readonly Reading<number>[] {
  const bare = collectives.get(words[from] ?? "");
  const head = bare === undefined ? readWhole(words, from).at(-1) : { value: 1, next: from };
  if (head === undefined || !Number.isFinite(head.value)) return [];
  const size = collectives.get(words[head.next] ?? "");
  if (size === undefined) return [];
  const next = head.next + 1;
  const value = head.value * size;
  const plain = { value, next };
  return words[next] === "of" ? [{ value, next: next + 1 }, plain] : [plain];
}
