import { contractions, saysIs, spellings } from "./spelling.ts";

/** A normalised word and where it lies in the token it was cut from. */
export type Piece = { readonly word: string; readonly start: number; readonly end: number };

/** Longer tokens are nobody's word or number: kept whole, never taken apart. */
const LONGEST = 100;

/** Punctuation between words that were typed without a space; kept between digits. */
const between = /[,;:!?"()[\]{}|]|\.{2,}/g;
const digit = /\d/;
const wordCharacter = /[\p{L}\p{N}\p{M}]/u;

/** Cuts one token without spaces into words: "(500ml," is "500" and "ml". */
export function splitWord(token: string): Piece[] {
  if (token.length > LONGEST) return [{ word: token.toLowerCase(), start: 0, end: token.length }];
  const pieces: Piece[] = [];
  let start = 0;
  for (const match of token.matchAll(between)) {
    const end = match.index + match[0].length;
    if (digit.test(token.charAt(match.index - 1)) && digit.test(token.charAt(end))) continue;
    pieces.push(...trimmed(token, start, match.index));
    start = end;
  }
  pieces.push(...trimmed(token, start, token.length));
  return pieces;
}

/** Drops the punctuation around a word, then opens up what is left. */
function trimmed(token: string, from: number, to: number): Piece[] {
  let start = from;
  let end = to;
  while (start < end && !opens(token, start)) start += 1;
  while (end > start && !closes(token.charAt(end - 1))) end -= 1;
  if (start >= end) return [];
  return opened(token.slice(start, end).toLowerCase(), start, end);
}

/** A sign or a point belongs to the number behind it: "-5", ".5"; a lone "+", "%" or "°" is a word. */
function opens(token: string, at: number): boolean {
  const character = token.charAt(at);
  if (character === "-")
    return digit.test(token.charAt(token.charAt(at + 1) === "." ? at + 2 : at + 1));
  if (character === ".") return digit.test(token.charAt(at + 1));
  return "+%°±".includes(character) || wordOrHalf(character);
}

const closes = (character: string): boolean => "+%°±".includes(character) || wordOrHalf(character);

/** Halves of a surrogate pair stay: together they are a letter or a picture. */
const wordOrHalf = (character: string): boolean =>
  wordCharacter.test(character) || /[\uD800-\uDFFF]/.test(character);

const abbreviation = /^(?:\p{L}\.)+\p{L}$/u;
const apostrophe = /^(.+?)(n't|'([a-z]{1,2}))$/;
const measures =
  "mls?|mils?|cc|cl|dl|l|lt|ltr|kg|mg|g|gr|oz|ozs|lbs?|qts?|pts?|gals?|°c|°f|°|c|f|hrs?|h|mins?|m|secs?|s|mm|x|%|am|pm|a\\.m|p\\.m";
const glued = new RegExp(`^([-+±]?\\.?\\d[\\d.,/:]*(?:e[-+]?\\d+)?)(${measures})$`);
const times = /^(\d+)(x)(\d+(?:[.,]\d+)?)(mls?|cc|l|oz|g)$/;
const clockRun = /^(?:\d+(?:h|hrs?|m|mins?|s|secs?)){1,3}\d*$/;
const exposures = /^(\d+)-([a-z]{2,})$/;
const spelt =
  /^(?:minus|negative|half|quarter|a|an|and|point|oh|zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|quarters?|thirds?|first|second|fourth|fifth|sixth|seventh|eighth|ninth)$/;

/** Takes apart what people write together: units, contractions, hyphenated numbers. */
function opened(word: string, start: number, end: number): Piece[] {
  if (abbreviation.test(word)) return [{ word: word.replaceAll(".", ""), start, end }];
  const spelling = spellings.get(word);
  if (spelling !== undefined) return spread(spelling, start, end);
  if (word.includes("'")) {
    const match = apostrophe.exec(word);
    if (match !== null) return contracted(match, start, end);
  }
  const parts = apart(word);
  if (parts === undefined) return [{ word, start, end }];
  let at = start;
  return parts.map((part) => {
    const spelt = part === "a.m" || part === "p.m" ? part.replace(".", "") : part;
    const piece = { word: spelt, start: at, end: at + part.length };
    at += part.length + (word.charAt(at - start + part.length) === "-" ? 1 : 0);
    return piece;
  });
}

function apart(word: string): readonly string[] | undefined {
  if (digit.test(word)) {
    const match = glued.exec(word) ?? times.exec(word) ?? exposures.exec(word);
    if (match !== null) return match.slice(1);
    if (clockRun.test(word)) return word.match(/\d+|[a-z]+/g) ?? undefined;
    return undefined;
  }
  if (!word.includes("-")) return undefined;
  const parts = word.split("-");
  const opening = parts[0] === "half" || parts[0] === "quarter";
  return parts.every((part) => spelt.test(part)) || (opening && parts.every((part) => part !== ""))
    ? parts
    : undefined;
}

function contracted(match: RegExpExecArray, start: number, end: number): Piece[] {
  const [, head = "", tail = "", letters = ""] = match;
  const middle = start + head.length;
  const first: readonly string[] = spellings.get(head) ?? [head];
  const opening = spread(first, start, middle);
  const joined = (word: string): Piece[] => [...opening, { word, start: middle, end }];
  if (tail === "n't") return joined("not");
  if (letters === "s") return saysIs.has(head) ? joined("is") : opening;
  const second = contractions.get(letters);
  return second === undefined ? [{ word: head + tail, start, end }] : joined(second);
}

/** Several words for one stretch of text: the first carries it, the others are empty. */
const spread = (words: readonly string[], start: number, end: number): Piece[] =>
  words.map((word, index) => ({ word, start: index === 0 ? start : end, end }));
