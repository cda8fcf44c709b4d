import type { Reading } from "../reader.ts";
import { numberReader } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

/**
 * Water to one part of concentrate. "1+9" says so; "1:9" and "one to nine" are read both ways by
 * different people, so the command shows or asks.
 */
export type Dilution = { readonly waterParts: number; readonly notation: "plus" | "ratio" };

type Read = readonly Reading<Dilution | Unreadable>[];

const readNeat = phrases<Dilution>([
  [
    { waterParts: 0, notation: "plus" },
    "stock, neat, straight, undiluted, not diluted, full strength, as stock, stock strength",
  ],
]);

const readBetween = phrases<Dilution["notation"]>([
  ["plus", "+, plus, and"],
  ["ratio", "to, :"],
]);

/** The slot `{dilution}`. */
export const readDilution = (words: readonly string[], from: number): Read =>
  byLength([...readWritten(words, from), ...readSpoken(words, from), ...readNeat(words, from)]);

function readWritten(words: readonly string[], from: number): Read {
  const match = /^(\d+(?:\.\d+)?)([+:])(\d+(?:\.\d+)?)$/.exec(words[from] ?? "");
  if (match === null) return [];
  const notation = match[2] === "+" ? "plus" : "ratio";
  return [made(words, from, from + 1, Number(match[1]), Number(match[3]), notation)];
}

/** "one plus nine", "1 part to 9 parts water". "And" only joins when parts were said. */
function readSpoken(words: readonly string[], from: number): Read {
  return numberReader(words, from).flatMap((one) => {
    if (isUnreadable(one.value)) return [];
    const concentrate = one.value;
    const parts = words[one.next] === "part" || words[one.next] === "parts";
    const after = one.next + (parts ? 1 : 0);
    const between = readBetween(words, after)[0];
    if (between === undefined || (words[after] === "and" && !parts)) return [];
    return numberReader(words, between.next).flatMap(({ value, next }) => {
      if (isUnreadable(value)) return [];
      const end = behindWater(words, next);
      const notation = parts ? "plus" : between.value;
      return [end, ...(end === next ? [] : [next])].map((stop) =>
        made(words, from, stop, concentrate, value, notation),
      );
    });
  });
}

/** Past "parts", "of water", "parts water". */
function behindWater(words: readonly string[], from: number): number {
  const parts = words[from] === "part" || words[from] === "parts" ? from + 1 : from;
  const of = words[parts] === "of" ? parts + 1 : parts;
  return words[of] === "water" ? of + 1 : parts;
}

function made(
  words: readonly string[],
  from: number,
  next: number,
  concentrate: number,
  water: number,
  notation: Dilution["notation"],
): Reading<Dilution | Unreadable> {
  const waterParts = water / concentrate;
  return Number.isFinite(waterParts) && concentrate > 0
    ? { value: { waterParts, notation }, next }
    : { value: unreadable(words, from, next), next };
}
