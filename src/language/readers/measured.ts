import type { Reading } from "../reader.ts";
import { isArticle, readNumber } from "./number.ts";
import { articles, byLength, skip } from "./phrases.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** A number with its unit, before anything is converted. */
export type Measured<Unit> = { readonly amount: number | Unreadable; readonly unit: Unit };

type UnitReader<Unit> = (words: readonly string[], from: number) => readonly Reading<Unit>[];

const behindUnit: ReadonlyMap<string, number> = new Map([
  ["half", 1 / 2],
  ["quarter", 1 / 4],
  ["third", 1 / 3],
]);

/**
 * Number and unit: "500 ml", "half a litre", "a quart and a half", "2 x 500 ml", "an ounce". A unit
 * by itself is one of it where `bare` says so ("quart of developer").
 */
export function readMeasured<Unit>(
  words: readonly string[],
  from: number,
  readUnit: UnitReader<Unit>,
  bare: (word: string) => boolean = () => false,
): readonly Reading<Measured<Unit>>[] {
  const numbered = readNumber(words, from).flatMap(({ value, next }) =>
    readUnit(words, next).flatMap((unit) => withTail(words, value, unit)),
  );
  const alone = skip(words, from, articles);
  const single =
    alone < words.length && bare(words[alone] ?? "") && numbered.length === 0
      ? readUnit(words, alone).flatMap((unit) => withTail(words, 1, unit))
      : [];
  return byLength([...numbered, ...single, ...readTimes(words, from, readUnit)]);
}

/** "... and a half" behind the unit, with the plain reading after it. */
function withTail<Unit>(
  words: readonly string[],
  amount: number | Unreadable,
  { value: unit, next }: Reading<Unit>,
): readonly Reading<Measured<Unit>>[] {
  const plain = { value: { amount, unit }, next };
  if (isUnreadable(amount) || words[next] !== "and" || words[next + 1] !== "a") return [plain];
  const tail = behindUnit.get(words[next + 2] ?? "");
  if (tail === undefined || !Number.isInteger(amount)) return [plain];
  return [{ value: { amount: amount + tail, unit }, next: next + 3 }, plain];
}

/** "2 x 500 ml", "two times a litre". */
function readTimes<Unit>(
  words: readonly string[],
  from: number,
  readUnit: UnitReader<Unit>,
): readonly Reading<Measured<Unit>>[] {
  return readNumber(words, from).flatMap((count) => {
    if (isArticle(words, from, count.next)) return [];
    if (words[count.next] !== "x" && words[count.next] !== "times") return [];
    return readNumber(words, count.next + 1).flatMap((each) =>
      readUnit(words, each.next).map((unit) => ({
        value: { amount: product(count.value, each.value), unit: unit.value },
        next: unit.next,
      })),
    );
  });
}

const product = (a: number | Unreadable, b: number | Unreadable): number | Unreadable =>
  isUnreadable(a) ? a : isUnreadable(b) ? b : a * b;

/**
 * Several of them in a row, the units going down: "1 quart 8 ounces", "3 lb and 2 oz". Every
 * shorter row is a reading as well.
 */
export function readRow<Unit>(
  words: readonly string[],
  from: number,
  readOne: (words: readonly string[], from: number) => readonly Reading<Measured<Unit>>[],
  goesDown: (upper: Unit, lower: Unit) => boolean,
): readonly Reading<readonly Measured<Unit>[]>[] {
  return byLength(
    readOne(words, from).flatMap((first) => {
      const alone = { value: [first.value], next: first.next };
      const behind = words[first.next] === "and" ? first.next + 1 : first.next;
      const second = readOne(words, behind).find(({ value }) =>
        goesDown(first.value.unit, value.unit),
      );
      return second === undefined
        ? [alone]
        : [{ value: [first.value, second.value], next: second.next }, alone];
    }),
  );
}
