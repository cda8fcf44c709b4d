import type { Reading } from "../reader.ts";

type Entry<T> = { readonly words: readonly string[]; readonly value: T };

/**
 * Reads fixed phrases of one or more words. The table says, per value, all the ways to put it,
 * separated by commas: `[["stop", "stop, stop bath"]]`.
 */
export function phrases<T>(
  table: Iterable<readonly [value: T, ways: string]>,
): (words: readonly string[], from: number) => readonly Reading<T>[] {
  const byFirst = new Map<string, Entry<T>[]>();
  for (const [value, ways] of table) {
    for (const way of ways.split(",")) {
      const words = way.trim().split(" ");
      const first = words[0] ?? "";
      const entries = byFirst.get(first) ?? [];
      entries.push({ words, value });
      byFirst.set(first, entries);
    }
  }
  for (const entries of byFirst.values()) entries.sort((a, b) => b.words.length - a.words.length);
  return (words, from) =>
    (byFirst.get(words[from] ?? "") ?? [])
      .filter((entry) => entry.words.every((word, index) => words[from + index] === word))
      .map(({ words: { length }, value }) => ({ value, next: from + length }));
}

/** Where the words go on after one of these, or here when none is there. */
export const skip = (words: readonly string[], from: number, some: ReadonlySet<string>): number =>
  some.has(words[from] ?? "") ? from + 1 : from;

export const articles: ReadonlySet<string> = new Set(["the", "a", "an", "my", "our", "some"]);

/** Readings with a unit; only without any is a bare number sensible, else it would lose its unit. */
export const orBare = <T>(
  withUnit: readonly Reading<T>[],
  bare: () => readonly Reading<T>[],
): readonly Reading<T>[] => (withUnit.length > 0 ? byLength(withUnit) : bare());

/** Longest first; of two equally long readings the earlier one stays in front. */
export const byLength = <T>(readings: readonly Reading<T>[]): readonly Reading<T>[] =>
  [...readings].sort((a, b) => b.next - a.next);
