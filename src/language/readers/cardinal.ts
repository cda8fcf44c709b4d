import type { Reading } from "../reader.ts";

const list = (words: string): readonly string[] => words.split(" ");

/** 0 to 19 by their place in the list. */
export const small: ReadonlyMap<string, number> = new Map([
  ...list(
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen",
  ).map((word, value) => [word, value] as const),
  ["nought", 0],
]);

const tens: ReadonlyMap<string, number> = new Map([
  ...list("twenty thirty forty fifty sixty seventy eighty ninety").map(
    (word, index) => [word, 20 + 10 * index] as const,
  ),
  ["fourty", 40],
]);

const scales: ReadonlyMap<string, number> = new Map([
  ["thousand", 1e3],
  ["million", 1e6],
  ["billion", 1e9],
]);

/** No spoken number is longer. */
const LONGEST = 24;

/**
 * A whole number in words: "six hundred and fifty", "a hundred", "twelve thousand and one".
 * The longest reading only; "and" is eaten only when a number goes on behind it.
 */
export function readCardinal(words: readonly string[], from: number): Reading<number> | undefined {
  let at = from;
  let total = 0;
  let group: number | undefined;
  let lastScale = Number.POSITIVE_INFINITY;
  const end = Math.min(words.length, from + LONGEST);
  while (at < end) {
    const part = readHundreds(words, at, group === undefined && total === 0);
    if (part === undefined) break;
    group = part.value;
    at = part.next;
    const scale = scales.get(words[at] ?? "");
    if (scale === undefined || scale >= lastScale) break;
    total += group * scale;
    group = undefined;
    lastScale = scale;
    at += 1;
    const after = words[at] === "and" ? at + 1 : at;
    const more = readHundreds(words, after, false);
    if (more === undefined) break;
    at = after;
  }
  if (at === from) return undefined;
  return { value: total + (group ?? 0), next: at };
}

/** Below a thousand; `opening` allows "a hundred". */
function readHundreds(
  words: readonly string[],
  from: number,
  opening: boolean,
): Reading<number> | undefined {
  const article = opening && (words[from] === "a" || words[from] === "an");
  if (article) {
    const scaled = scales.has(words[from + 1] ?? "");
    if (scaled) return { value: 1, next: from + 1 };
    if (words[from + 1] !== "hundred") return undefined;
  }
  const head = article ? { value: 1, next: from + 1 } : readBelowHundred(words, from);
  if (head === undefined) return undefined;
  if (words[head.next] !== "hundred" || head.value === 0) return head;
  const hundreds = head.value * 100;
  const behind = head.next + 1;
  const after = words[behind] === "and" ? behind + 1 : behind;
  const rest = readBelowHundred(words, after);
  return rest === undefined || rest.value === 0
    ? { value: hundreds, next: behind }
    : { value: hundreds + rest.value, next: rest.next };
}

/** "thirty seven", "twelve", "zero". */
export function readBelowHundred(
  words: readonly string[],
  from: number,
): Reading<number> | undefined {
  const word = words[from] ?? "";
  const single = small.get(word);
  if (single !== undefined) return { value: single, next: from + 1 };
  const ten = tens.get(word);
  if (ten === undefined) return undefined;
  const one = small.get(words[from + 1] ?? "") ?? 0;
  return one >= 1 && one <= 9
    ? { value: ten + one, next: from + 2 }
    : { value: ten, next: from + 1 };
}

/** The digits behind "point": "five", "two five", "oh five", "seventy five", as text. */
export function readDecimals(words: readonly string[], from: number): Reading<string> | undefined {
  let at = from;
  let digits = "";
  while (at < words.length && at < from + 12) {
    const word = words[at] ?? "";
    if (word === "oh" || word === "o") {
      digits += "0";
      at += 1;
      continue;
    }
    const written = /^\d{1,12}$/.test(word) ? { value: word, next: at + 1 } : undefined;
    const spoken = written ?? readBelowHundred(words, at);
    if (spoken === undefined) break;
    digits += String(spoken.value);
    at = spoken.next;
    if (written !== undefined) break;
  }
  return at === from ? undefined : { value: digits, next: at };
}
