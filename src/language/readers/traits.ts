import type { ProcessMark } from "../../domain/film/process-mark.ts";
import type { Reading } from "../reader.ts";
import { readNumber } from "./number.ts";
import { phrases } from "./phrases.ts";
import { readMark } from "./process-mark.ts";
import { readStops } from "./stops.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** What is said of a roll beside its format. Numbers as said: the command checks them. */
export type Traits = {
  readonly marked?: ProcessMark;
  readonly push?: number;
  readonly rated?: number;
  readonly important?: boolean;
  readonly doubtful?: boolean;
  readonly blackBacked?: boolean;
  readonly name?: string;
};

/** Common usage, no source. */
const readFlag = phrases<Traits>([
  [{ important: true }, "important, very important, precious, irreplaceable, once only"],
  [{ important: false }, "unimportant, not important, a test roll, test roll, not precious"],
  [{ doubtful: true }, "doubtful, outdated, out of date, expired, suspect, found film"],
  [{ doubtful: false }, "not doubtful, in date, sound"],
  [{ blackBacked: true }, "black backed, black-backed, with backing, with black backing, remjet"],
  [{ blackBacked: true }, "with a black backing, with remjet, rem-jet"],
  [{ blackBacked: false }, "no backing, without backing, not black backed, no black backing"],
  [{ blackBacked: false }, "backing removed, no remjet, without remjet"],
]);
const readMarked = phrases<true>([
  [true, "marked, marked as, it says, which says, says, to be developed in, for"],
]);
const readRated = phrases<true>([
  [true, "rated, rated at, rated iso, shot at, exposed at, iso, ei, asa, at iso, at ei, speed"],
]);
const readCalled = phrases<true>([[true, "called, named, name, call it, name it"]]);
const small: ReadonlySet<string> = new Set(["and", "is", "it", "are", "as", "also", "with"]);
const noName: ReadonlySet<string> = new Set([
  ..."and plus with note stock film roll rolls sheet sheets a an the to marked rated at for of in on is".split(
    " ",
  ),
]);

/** One trait at `from`, or what makes it unreadable. */
function readTrait(
  words: readonly string[],
  from: number,
): Reading<Traits | Unreadable> | undefined {
  const marked = readMark(words, readMarked(words, from)[0]?.next ?? from)[0];
  if (marked !== undefined) return { value: { marked: marked.value }, next: marked.next };
  const flag = readFlag(words, from)[0];
  if (flag !== undefined) return flag;
  const rated = readRated(words, from)[0];
  const speed = rated === undefined ? undefined : readNumber(words, rated.next)[0];
  if (speed !== undefined) {
    const { value, next } = speed;
    return { value: isUnreadable(value) ? value : { rated: value }, next };
  }
  const push = readStops(words, from)[0];
  if (push !== undefined) {
    const { value, next } = push;
    return { value: isUnreadable(value) ? value : { push: value }, next };
  }
  return readCalled(words, from)
    .map(({ next }) => readRollName(words, next))
    .find((name) => name !== undefined);
}

/** A name of one word, or of two where the second begins nothing else. */
function readRollName(words: readonly string[], from: number): Reading<Traits> | undefined {
  const first = words[from];
  if (first === undefined || noName.has(first)) return undefined;
  const second = words[from + 1];
  const goesOn =
    second !== undefined &&
    !noName.has(second) &&
    !/\d/.test(second) &&
    readNumber(words, from + 1).length === 0 &&
    readTrait(words, from + 1) === undefined;
  return goesOn
    ? { value: { name: `${first} ${second}` }, next: from + 2 }
    : { value: { name: first }, next: from + 1 };
}

/** The slot `{traits}`: "marked C-41, pushed one stop, rated 400, important, called beach". */
export function readTraits(
  words: readonly string[],
  from: number,
): readonly Reading<Traits | Unreadable>[] {
  let traits: Traits = {};
  let at = from;
  let end = from;
  while (at < words.length) {
    const trait = readTrait(words, at);
    if (trait !== undefined) {
      if (isUnreadable(trait.value)) return [{ value: trait.value, next: trait.next }];
      traits = { ...traits, ...trait.value };
      at = trait.next;
      end = at;
    } else if (small.has(words[at] ?? "")) at += 1;
    else break;
  }
  return end === from ? [] : [{ value: traits, next: end }];
}
