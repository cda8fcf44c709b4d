import type { Listening, Reading } from "../reader.ts";
import { isUnsettled } from "../reader.ts";
import { phrases, skip } from "./phrases.ts";
import { readTemperature } from "./temperature.ts";
import { isUnreadable } from "./unreadable.ts";

/** What a bath read, °C: named by its end of the time, or in the order they were said. */
export type BathEnds = {
  readonly start?: number;
  readonly end?: number;
  readonly said?: readonly number[];
  /** It was not measured, or is not to be asked about. */
  readonly skip?: true;
};

const readNone = phrases<BathEnds>([
  [{ skip: true }, "no, none, skip, not measured, did not, i did not, not read, no idea, unknown"],
  [{ skip: true }, "i do not know, do not know, nobody did, not now, leave it, later"],
]);

const linking = new Set(["and", "then", "to", "at", "was", "it", "the", "is", "in", ","]);
const starts = new Set(["start", "beginning", "first", "before"]);
const ends = new Set(["end", "last", "finish", "after"]);

type State = { readonly at: number; readonly value: BathEnds };

const pass = (words: readonly string[], from: number): number => {
  let at = from;
  while (at < words.length && linking.has(words[at] ?? "")) at += 1;
  return at;
};

/**
 * The slot `{bathEnds}`: "38.1 and 37.8", "38.1 at the start", "at the end 37.6". One or two
 * temperatures; a number whose scale has to be asked is not taken.
 */
export function readBathEnds(
  words: readonly string[],
  from: number,
  listening: Listening,
): readonly Reading<BathEnds>[] {
  const readings: Reading<BathEnds>[] = [];
  let state: State | undefined = { at: from, value: {} };
  for (let many = 0; many < 2 && state !== undefined; many += 1) {
    state = oneEnd(words, state, listening);
    if (state !== undefined) readings.push({ value: state.value, next: state.at });
  }
  return readings.length === 0 ? readNone(words, from) : readings.reverse();
}

/** One temperature with the word for its end before or behind it. */
function oneEnd(
  words: readonly string[],
  { at, value }: State,
  listening: Listening,
): State | undefined {
  const open = pass(words, at);
  const ahead = endNamed(words[open]);
  const number = pass(words, ahead === undefined ? open : open + 1);
  const read = readTemperature(words, number, listening).find(
    (one) => !isUnsettled(one.value) && !isUnreadable(one.value),
  );
  if (read === undefined || typeof read.value !== "number") return undefined;
  const behind = pass(words, read.next);
  const after = ahead === undefined ? endNamed(words[behind]) : undefined;
  const which = ahead ?? after;
  const next = after === undefined ? read.next : behind + 1;
  return {
    at: skip(words, next, new Set([","])),
    value:
      which === undefined
        ? { ...value, said: [...(value.said ?? []), read.value] }
        : { ...value, [which]: read.value },
  };
}

function endNamed(word: string | undefined): "start" | "end" | undefined {
  if (word === undefined) return undefined;
  return starts.has(word) ? "start" : ends.has(word) ? "end" : undefined;
}
