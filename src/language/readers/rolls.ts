import type { Listening, Reading } from "../reader.ts";
import { readCardinal } from "./cardinal.ts";

/** Rolls meant by number or by name: ids, and what no roll is called. */
export type RollsMeant = { readonly ids: readonly string[]; readonly unknown: readonly string[] };

const nouns: ReadonlySet<string> = new Set(["roll", "rolls", "film", "films", "sheet", "number"]);
const opens: ReadonlySet<string> = new Set(["the", "my", "our"]);
const through: ReadonlySet<string> = new Set(["to", "through", "until", "-"]);
/** Lengths and formats: "roll 36" is film, unless a roll has that number. */
const formats: ReadonlySet<number> = new Set([12, 24, 36, 120, 135, 220]);
const MOST = 200;

type Found = { readonly ids: readonly string[]; readonly unknown: readonly string[] };

/**
 * The slot `{rolls}`: "roll 3", "rolls 1 and 2", "rolls 1 to 4", "beach", "beach and dunes",
 * "all rolls". A name that several rolls share means all of them.
 */
export function readRolls(
  words: readonly string[],
  from: number,
  { rolls }: Listening,
): readonly Reading<RollsMeant>[] {
  if (rolls === undefined) return [];
  const start = opens.has(words[from] ?? "") ? from + 1 : from;
  if (/^(all|every|everything)$/.test(words[start] ?? "")) {
    const of = opens.has(words[start + 1] ?? "") ? start + 2 : start + 1;
    if (!nouns.has(words[of] ?? "")) return [];
    return [{ value: { ids: [...rolls.waiting], unknown: [] }, next: of + 1 }];
  }
  let at = start;
  let numbered = false;
  let ids: readonly string[] = [];
  let unknown: readonly string[] = [];
  const readings: Reading<RollsMeant>[] = [];
  for (let count = 0; count < MOST; count += 1) {
    const joined = count > 0 && (words[at] === "and" || words[at] === "+") ? at + 1 : at;
    const noun = nouns.has(words[joined] ?? "");
    numbered ||= noun;
    const one = readOne(words, noun ? joined + 1 : joined, numbered, noun, rolls);
    if (one === undefined) break;
    ids = [...ids, ...one.value.ids];
    unknown = [...unknown, ...one.value.unknown];
    at = one.next;
    readings.unshift({ value: { ids: [...new Set(ids)], unknown }, next: at });
  }
  return readings;
}

function readOne(
  words: readonly string[],
  from: number,
  numbered: boolean,
  noun: boolean,
  rolls: NonNullable<Listening["rolls"]>,
): Reading<Found> | undefined {
  for (const length of [3, 2, 1]) {
    const ids = rolls.byName.get(words.slice(from, from + length).join(" "));
    if (ids !== undefined && from + length <= words.length) {
      return { value: { ids, unknown: [] }, next: from + length };
    }
  }
  const first = numbered ? readWhole(words, from) : undefined;
  if (first === undefined) {
    const word = words[from];
    if (!noun || word === undefined || /^(of|is|are|in|with|for|to|at|done|left)$/.test(word))
      return;
    return /\d/.test(word) || !/\p{L}/u.test(word)
      ? undefined
      : { value: { ids: [], unknown: [word] }, next: from + 1 };
  }
  const to = through.has(words[first.next] ?? "") ? readWhole(words, first.next + 1) : undefined;
  const last =
    to !== undefined && to.value > first.value && to.value - first.value < MOST ? to : first;
  const ids: string[] = [];
  const unknown: string[] = [];
  for (let number = first.value; number <= last.value; number += 1) {
    const id = rolls.byNumber.get(number);
    if (id !== undefined) ids.push(id);
    else if (last === first && formats.has(number)) return undefined;
    else unknown.push(String(number));
  }
  return { value: { ids, unknown }, next: last.next };
}

function readWhole(words: readonly string[], from: number): Reading<number> | undefined {
  const word = words[from] ?? "";
  if (/^-?\d{1,6}$/.test(word)) return { value: Number(word), next: from + 1 };
  if (word === "a" || word === "an") return undefined;
  return readCardinal(words, from);
}
