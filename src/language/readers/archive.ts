import type { Reading } from "../reader.ts";
import { readWord } from "./free-text.ts";

/** A file's name of more words than this is not said. */
const MOST = 12;

/**
 * The slot `{archive}`: the name of a zip file, also one that is cut into words where it has spaces
 * or brackets: "home 1 zip" of "home (1).zip". A name without its ending is one word.
 */
export function readArchive(words: readonly string[], from: number): readonly Reading<string>[] {
  const readings: Reading<string>[] = [];
  for (let next = from + 2; next <= Math.min(words.length, from + MOST); next += 1) {
    if (!/(^|\.)zip$/.test(words[next - 1] ?? "")) continue;
    readings.push({ value: words.slice(from, next).join(" "), next });
  }
  return [...readings.reverse(), ...readWord(words, from)];
}
