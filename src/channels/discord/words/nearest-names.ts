import { doubleMetaphone } from "double-metaphone";
import { distance } from "fastest-levenshtein";
import { toWords } from "../../../language/words.ts";

/** Something that can be picked: what is shown, what is sent, and how else it is called. */
export type Named = {
  readonly name: string;
  readonly value: string;
  readonly also?: readonly string[] | undefined;
};

/** How many letters a slip may change: none in short words, one in middling ones, two in long ones. */
const slips = (word: string): number => (word.length < 4 ? 0 : word.length < 7 ? 1 : 2);

const plain = (text: string): string => toWords(text).words.join(" ");

const sounds = (word: string): readonly string[] =>
  doubleMetaphone(word).filter((sound) => sound.length >= 2);

/** 0 begins so, 1 a word of it does, 2 it stands in it, 3 a slip or a sound away; else undefined. */
function closeness(called: string, typed: string): number | undefined {
  if (called.startsWith(typed)) return 0;
  const words = called.split(" ");
  if (words.some((word) => word.startsWith(typed))) return 1;
  if (called.includes(typed)) return 2;
  const may = slips(typed);
  const heads = [called, ...words].map((word) => word.slice(0, Math.max(typed.length, 1)));
  if (may > 0 && [...heads, ...words].some((head) => distance(head, typed) <= may)) return 3;
  const own = typed.length < 4 ? [] : sounds(typed);
  return own.some((sound) => words.some((word) => sounds(word).includes(sound))) ? 3 : undefined;
}

/** What may be meant by some letters, the likeliest first and otherwise in the order given. */
export function nearestNames<N extends Named>(all: readonly N[], typed: string): readonly N[] {
  const wanted = plain(typed);
  if (wanted === "") return all;
  return all
    .flatMap((one) => {
      const ways = [one.name, ...(one.also ?? [])].map((way) => closeness(plain(way), wanted));
      const best = Math.min(...ways.map((way) => way ?? Number.POSITIVE_INFINITY));
      return Number.isFinite(best) ? [{ one, best }] : [];
    })
    .toSorted((a, b) => a.best - b.best)
    .map(({ one }) => one);
}
