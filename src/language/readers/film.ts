import type { Reading } from "../reader.ts";
import { readFormat } from "./film-format.ts";
import { type FilmSize, readFilmSize } from "./film-size.ts";
import { isArticle, readNumber } from "./number.ts";
import { byLength, phrases } from "./phrases.ts";
import { readSpokenHundreds } from "./spoken-hundreds.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** "135" alone did not say how many exposures: the command decides or asks. */
export type FilmFormat =
  | "135"
  | "135-36"
  | "135-24"
  | "135-12"
  | "120"
  | "220"
  | "4x5"
  | "5x7"
  | "8x10";

/** Films of one kind. Without a format only their number was said; `sheet` when sheets were. */
type FilmItem = {
  readonly count: number;
  readonly format?: FilmFormat;
  readonly shape?: "sheet";
  /** The sides of a sheet that has no named format, in. */
  readonly size?: FilmSize;
};
export type FilmLoad = readonly FilmItem[];
type Read<T> = readonly Reading<T | Unreadable>[];

const readNoun = phrases<"roll" | "sheet">([
  ["roll", "roll, rolls, film, films, roll film, rolls of film, roll of film, reel, reels"],
  ["sheet", "sheet, sheets, sheets of film, sheet of film"],
]);

/** No tank holds more kinds than this. */
const MOST_ITEMS = 8;

/** The slot `{film}`: "two 120 and a 135", "a roll of 36", "four 4x5 sheets", "2 x 120". */
export function readFilm(words: readonly string[], from: number): Read<FilmLoad> {
  let found: Read<FilmLoad> = readItem(words, from).map(({ value, next }) => ({
    value: isUnreadable(value) ? value : [value],
    next,
  }));
  let row = found[0];
  for (let count = 1; count < MOST_ITEMS && row !== undefined; count += 1) {
    if (isUnreadable(row.value)) break;
    const joined = words[row.next];
    const behind =
      joined === "and" || joined === "+" || joined === "plus" ? row.next + 1 : row.next;
    const more = readItem(words, behind).find(({ value, next }) =>
      saysFilm(words, value, behind, next),
    );
    if (more === undefined || isUnreadable(more.value)) break;
    row = { value: [...row.value, more.value], next: more.next };
    found = [row, ...found];
  }
  return found.length > 0 ? byLength(found) : readBareCount(words, from);
}

/** Only the first item may be a plain number; "and two" behind it belongs to something else. */
const saysFilm = (
  words: readonly string[],
  value: FilmItem | Unreadable,
  from: number,
  next: number,
): boolean =>
  !isUnreadable(value) &&
  (value.format !== undefined ||
    value.size !== undefined ||
    words.slice(from, next).some((word) => /^(roll|sheet|film)/.test(word)));

const timesWords: ReadonlySet<string> = new Set(["x", "of", "more"]);

/** Count, "x", "of" or "more", format, noun: all but one of them may be missing. */
function readItem(words: readonly string[], from: number): Read<FilmItem> {
  const written = /^(\d{1,3})x(120|220|135|35)$/.exec(words[from] ?? "");
  if (written !== null) {
    const format = written[2] === "120" || written[2] === "220" ? written[2] : "135";
    return [{ value: { count: Number(written[1]), format }, next: from + 1 }];
  }
  const counts = readNumber(words, from);
  const counted = counts.flatMap((count): Read<FilmItem> => {
    const times = timesWords.has(words[count.next] ?? "") ? count.next + 1 : count.next;
    // "three 35s": behind a number of them alone, since "35 s" is also a time.
    if (words[times] === "35" && words[times + 1] === "s" && typeof count.value === "number") {
      return [{ value: { count: count.value, format: "135" }, next: times + 2 }];
    }
    return readKind(words, times).map(({ value, next }) => ({
      value: isUnreadable(count.value) ? count.value : { count: count.value, ...value },
      next,
    }));
  });
  const start = words[from] === "the" || words[from] === "my" ? from + 1 : from;
  const alone = readKind(words, start).map(({ value, next }) => ({
    value: { count: 1, ...value },
    next,
  }));
  return byLength<FilmItem | Unreadable>([...counted, ...alone]);
}

type Kind = Omit<FilmItem, "count">;

/** What is counted: "rolls", "120", "rolls of 120", "135 36 exposure", "4x5 sheets". */
function readKind(words: readonly string[], from: number): readonly Reading<Kind>[] {
  const formats = readFormat(words, from).flatMap(({ value: format, next }) => {
    const noun = readNoun(words, next)[0];
    const plain = { value: { format }, next };
    return noun === undefined ? [plain] : [{ value: { format }, next: noun.next }, plain];
  });
  const nouns = readNoun(words, from).flatMap(({ value: noun, next }): readonly Reading<Kind>[] => {
    const of = words[next] === "of" || words[next] === "in" ? next + 1 : next;
    const behind = readFormat(words, of, of > next || noun === "roll").map(
      ({ value: format, next: end }) => ({ value: { format }, next: end }),
    );
    return [...behind, { value: noun === "sheet" ? { shape: "sheet" } : {}, next }];
  });
  const sizes = readFilmSize(words, from).map(({ value: size, next }) => ({
    value: { size },
    next: readNoun(words, next)[0]?.next ?? next,
  }));
  const ofSize = readNoun(words, from).flatMap(({ value: noun, next }) => {
    const of = words[next] === "of" || words[next] === "in" ? next + 1 : next;
    return noun === "sheet"
      ? readFilmSize(words, of).map(({ value: size, next: end }) => ({
          value: { size },
          next: end,
        }))
      : [];
  });
  return byLength<Kind>([...formats, ...nouns, ...sizes, ...ofSize]);
}

/** An answer to "how many rolls?". A number that is also a length of film says too little. */
function readBareCount(words: readonly string[], from: number): Read<FilmLoad> {
  const lengths = new Set([24, 36, 120, 135, 220]);
  const spoken = readSpokenHundreds(words, from).map(({ next }) => next);
  return readNumber(words, from).flatMap(({ value, next }): Read<FilmLoad> => {
    if (isArticle(words, from, next) || spoken.includes(next)) return [];
    if (isUnreadable(value)) return [{ value, next }];
    return lengths.has(value) ? [] : [{ value: [{ count: value }], next }];
  });
}
