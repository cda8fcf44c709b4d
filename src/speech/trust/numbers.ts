import type { Choice } from "../../conversation/understand.ts";
import type { Bench } from "../../domain/session/bench.ts";
import { liveRuns } from "../../domain/session/find-run.ts";
import { currentStage } from "../../domain/session/run.ts";

/** "fifteen" and "fifty" differ by one soft consonant; each is said back as its digits. */
const pairs: ReadonlyMap<string, string> = new Map([
  ["thirteen", "one three"],
  ["fourteen", "one four"],
  ["fifteen", "one five"],
  ["sixteen", "one six"],
  ["seventeen", "one seven"],
  ["eighteen", "one eight"],
  ["nineteen", "one nine"],
  ["thirty", "three zero"],
  ["forty", "four zero"],
  ["fifty", "five zero"],
  ["sixty", "six zero"],
  ["seventy", "seven zero"],
  ["eighty", "eight zero"],
  ["ninety", "nine zero"],
]);

const digits: ReadonlySet<string> = new Set(
  "one two three four five six seven eight nine point".split(" "),
);

/**
 * The words that another word is easily taken for: a ten that nothing follows ("fifty", but not
 * "fifty three"), and every "-teen".
 */
export const doubtfulNumbers = (words: readonly string[]): readonly string[] =>
  words.filter((word, at) => {
    if (!pairs.has(word)) return false;
    return word.endsWith("teen") || !digits.has(words[at + 1] ?? "");
  });

/** A sentence to be said back, with its doubtful numbers spelt out: "fifteen, one five, rolls". */
export function spellOut(words: readonly string[]): string {
  const doubtful = new Set(doubtfulNumbers(words));
  return words
    .map((word) => (doubtful.has(word) ? `${word}, ${pairs.get(word)},` : word))
    .join(" ")
    .replace(/,$/, "");
}

/** Further than this from what the bath should be, °C, a reading by voice is said back. */
const FAR = 1.5;
/** What is rare at one bench, in the units of the fields: mL, s, rolls. Our own bounds. */
const usual: Readonly<Record<string, readonly [least: number, most: number]>> = {
  volume: [100, 3000],
  total: [100, 3000],
  duration: [15, 1800],
  lead: [5, 120],
  window: [5, 60],
  used: [0, 30],
};

/** Is a number of this sentence unlike what is usual, so that it was perhaps misheard? */
export function unlikelyNumber({ command, fields }: Choice, bench: Bench): boolean {
  if (command.name === "temperature" && typeof fields.temperature === "number") {
    const aims = liveRuns(bench).flatMap((run) => currentStage(run)?.temperature ?? []);
    const { temperature } = fields;
    if (aims.length > 0 && aims.every((aim) => Math.abs(temperature - Number(aim)) > FAR)) {
      return true;
    }
  }
  return Object.entries(usual).some(([field, [least, most]]) => {
    const value = fields[field];
    return typeof value === "number" && (value < least || value > most);
  });
}

/** Does the sentence hold a number at all? */
export const holdsNumber = (words: readonly string[]): boolean =>
  words.some(
    (word) =>
      pairs.has(word) || digits.has(word) || /^(ten|eleven|twelve|twenty|hundred|half)$/.test(word),
  );
