import type { Reading } from "../reader.ts";
import { type FilmLoad, readFilm } from "./film.ts";
import { readMark } from "./process-mark.ts";
import { readTraits, type Traits } from "./traits.ts";
import { isUnreadable, type Unreadable } from "./unreadable.ts";

/** Rolls to be written down: film, and what is said of it. */
export type NewRolls = readonly { readonly film: FilmLoad; readonly traits: Traits }[];
type Read = readonly Reading<NewRolls | Unreadable>[];

const MOST_ITEMS = 8;
const joins: ReadonlySet<string> = new Set(["and", "plus", "+", "also"]);

/** The slot `{newRolls}`: "two rolls of 120 C-41 pushed one stop called beach and a 135-36 E-6". */
export function readNewRolls(words: readonly string[], from: number): Read {
  const items: { film: FilmLoad; traits: Traits }[] = [];
  let at = from;
  while (items.length < MOST_ITEMS) {
    const start = items.length > 0 && joins.has(words[at] ?? "") ? at + 1 : at;
    const item = readItem(words, start);
    if (item === undefined) break;
    if (isUnreadable(item.value)) return [{ value: item.value, next: item.next }];
    items.push(item.value);
    at = item.next;
  }
  return items.length === 0 ? [] : [{ value: items, next: at }];
}

function readItem(
  words: readonly string[],
  from: number,
): Reading<NewRolls[number] | Unreadable> | undefined {
  const film = readMarkedFilm(words, from);
  if (film === undefined) return undefined;
  const behind = readTraits(words, film.next)[0];
  const { value, next } = film;
  if (isUnreadable(value)) return { value, next };
  if (behind === undefined) return { value, next };
  if (isUnreadable(behind.value)) return { value: behind.value, next: behind.next };
  return { value: { ...value, traits: { ...value.traits, ...behind.value } }, next: behind.next };
}

/** Film whose marking may stand inside: "two C-41 120", "a roll of E-6 120". */
function readMarkedFilm(
  words: readonly string[],
  from: number,
): Reading<NewRolls[number] | Unreadable> | undefined {
  for (let at = from; at < Math.min(words.length, from + 5); at += 1) {
    const mark = readMark(words, at)[0];
    if (mark === undefined) continue;
    const without = [...words.slice(0, at), ...words.slice(mark.next)];
    const film = filmSaid(without, from);
    if (film === undefined || film.next <= at) break;
    const next = film.next + mark.next - at;
    if (isUnreadable(film.value)) return { value: film.value, next };
    return { value: { film: film.value, traits: { marked: mark.value } }, next };
  }
  const film = filmSaid(words, from);
  if (film === undefined) return undefined;
  const { value, next } = film;
  return { value: isUnreadable(value) ? value : { film: value, traits: {} }, next };
}

/** A bare number is no film here: "add two" belongs to something else. */
const filmSaid = (
  words: readonly string[],
  from: number,
): Reading<FilmLoad | Unreadable> | undefined =>
  readFilm(words, from).find(
    ({ value, next }) =>
      isUnreadable(value) ||
      value.some(({ format }) => format !== undefined) ||
      words.slice(from, next).some((word) => /^(roll|sheet|film)/.test(word)),
  );
