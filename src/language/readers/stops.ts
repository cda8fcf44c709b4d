import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { isUnreadable, type Unreadable, unreadable } from "./unreadable.ts";

type Read = readonly Reading<number | Unreadable>[];

/** Which way, and whether the word alone is enough: "push" without a number is one stop of none. */
const readWay = phrases<1 | -1>([
  [1, "push, pushed, pushing, push by, push of, pushed by, plus, +, up"],
  [-1, "pull, pulled, pulling, pull by, pull of, pulled by, minus, down"],
]);
const readNoun = phrases<true>([[true, "stop, stops"]]);
const readNone = phrases<0>([
  [0, "normal, normally, box speed, at box speed, no push, not pushed, unpushed, push zero"],
]);

/** The slot `{push}`: "pushed one stop", "push two", "pulled 1", "+1", "two stops", "normal". */
export function readStops(words: readonly string[], from: number): Read {
  const none = readNone(words, from);
  const ways = readWay(words, from);
  const signed = ways.flatMap(({ value: way, next }) =>
    readNumber(words, next).flatMap((number): Read => {
      const end = readNoun(words, number.next)[0]?.next ?? number.next;
      const value = isUnreadable(number.value) ? unreadable(words, from, end) : number.value * way;
      return [{ value, next: end }];
    }),
  );
  const written = /^[+-]\d+(\.\d+)?$/.test(words[from] ?? "");
  const bare = readNumber(words, from).flatMap((number): Read => {
    const noun = readNoun(words, number.next)[0];
    if (noun === undefined && !written) return [];
    const end = noun?.next ?? number.next;
    const over = phrasesAfter(words, end);
    const value = isUnreadable(number.value)
      ? unreadable(words, from, end)
      : number.value * (over?.value ?? 1);
    return [{ value, next: over?.next ?? end }];
  });
  return byLength([...none, ...signed, ...bare]);
}

const readAfter = phrases<1 | -1>([
  [1, "push, pushed, over, up, more"],
  [-1, "pull, pulled, under, down, less"],
]);
const phrasesAfter = (words: readonly string[], from: number) => readAfter(words, from)[0];
