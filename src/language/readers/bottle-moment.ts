import type { Listening, Reading } from "../reader.ts";
import { nameReader } from "./names.ts";
import { phrases } from "./phrases.ts";
import { readSpan } from "./span.ts";
import { isUnreadable } from "./unreadable.ts";
import type { When } from "./when.ts";

const readMixing = phrases<true>([
  [true, "i mixed, we mixed, mixing, i made, we made, the mixing of"],
]);
const readMixed = phrases<true>([[true, "was mixed, is mixed, was made, were mixed"]]);
const readLimit = phrases<true>([
  [
    true,
    "runs out, expires, is due, goes off, reaches its limit, limit, is past its limit, goes bad, due date",
  ],
]);

/**
 * "six months after I mixed it", "3 weeks after acorn was mixed", "two days before acorn runs
 * out", "when acorn runs out": the bottle is known by the bench alone, so the command works the day
 * out.
 */
export function readBottleMoment(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<When>[] {
  if (words[from] === "when") {
    return readWhich(words, from + 1, listening).flatMap((which) =>
      readLimit(words, which.next).map(({ next }) => ({
        value: {
          kind: "from-bottle" as const,
          months: 0,
          days: 0,
          anchor: "limit" as const,
          ...(which.value === undefined ? {} : { bottle: which.value }),
        },
        next,
      })),
    );
  }
  return readSpan(words, from).flatMap(({ value: span, next }): readonly Reading<When>[] => {
    if (isUnreadable(span) || span.ms !== 0) return [];
    if (!Number.isInteger(span.days) || !Number.isInteger(span.months)) return [];
    const { months, days } = span;
    const way = words[next] ?? "";
    const value = (anchor: "mixed" | "limit", bottle: string | undefined): When => ({
      kind: "from-bottle",
      months,
      days,
      anchor,
      ...(bottle === undefined ? {} : { bottle }),
    });
    if (way === "before") {
      return readWhich(words, next + 1, listening).flatMap((which) =>
        readLimit(words, which.next).map(({ next: end }) => ({
          value: value("limit", which.value),
          next: end,
        })),
      );
    }
    if (!["after", "from", "since"].includes(way)) return [];
    const spoken = readMixing(words, next + 1).flatMap(({ next: verb }) => [
      ...readWhich(words, verb, listening).map((which) => ({
        value: value("mixed", which.value),
        next: which.next,
      })),
      ...(words[verb - 1] === "mixing" ? [{ value: value("mixed", undefined), next: verb }] : []),
    ]);
    const passive = readWhich(words, next + 1, listening).flatMap((which) =>
      readMixed(words, which.next).map(({ next: end }) => ({
        value: value("mixed", which.value),
        next: end,
      })),
    );
    return [...spoken, ...passive];
  });
}

/** A bottle by name, or "it". */
const readWhich = (
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<string | undefined>[] =>
  words[from] === "it" || words[from] === "that" || words[from] === "them"
    ? [{ value: undefined, next: from + 1 }]
    : nameReader("bottle")(words, from, listening);
