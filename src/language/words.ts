import { splitWord } from "./split-word.ts";

/** A sentence cut into words. All three arrays have the same length. */
export type Words = {
  /** Lower case, one spelling, what readers and templates look at. */
  readonly words: readonly string[];
  /** The same words as typed. */
  readonly original: readonly string[];
  /** Where each word lies in `typed`: start, and end (exclusive). */
  readonly spans: readonly (readonly [number, number])[];
  /** The whole sentence, cleaned of invisible characters but otherwise as typed. */
  readonly typed: string;
};

/** More than this is no sentence for a bench; the rest is not looked at. */
const MOST_WORDS = 400;
const MOST_CHARACTERS = 4000;

const vulgar: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅛": "1/8",
};

/** Sounds between words that mean nothing, and would make another word of the one behind them. */
const hesitation = /^(u+h+|u+m+|e+r+m*|h+m+)$/;

/** One form for quotes, dashes, signs and fractions; nothing invisible, nothing half a character. */
function clean(sentence: string): string {
  return sentence
    .slice(0, MOST_CHARACTERS)
    .toWellFormed()
    .replace(/[½¼¾⅓⅔⅛]/g, (sign, at: number, all: string) => {
      const head = /\d/.test(all.charAt(at - 1)) ? " " : "";
      return `${head}${vulgar[sign] ?? sign}`;
    })
    .replace(/º/g, "°")
    .replace(/[´`]/g, "'")
    .normalize("NFKC")
    .replace(/\p{Cf}/gu, "")
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\uFFFD\u00A0]/gu, " ")
    .replace(/[‘’‚‛ʼ′]/g, "'")
    .replace(/[“”„‟«»″]/g, '"')
    .replace(/[−‐‑‒–]/g, "-")
    .replace(/[×✕✖]/g, "x")
    .replace(/⁄/g, "/")
    .replace(/(\d) : (?=\d)/g, "$1:")
    .trim();
}

/** Cuts a sentence into normalised words, keeping what was typed beside them; without uh and um. Never throws. */
export function toWords(sentence: string): Words {
  const typed = clean(sentence);
  const words: string[] = [];
  const spans: [number, number][] = [];
  for (const match of typed.matchAll(/[^\s—]+/g)) {
    for (const piece of splitWord(match[0])) {
      if (words.length >= MOST_WORDS) break;
      if (hesitation.test(piece.word)) continue;
      words.push(piece.word);
      spans.push([match.index + piece.start, match.index + piece.end]);
    }
  }
  const original = spans.map(([start, end]) => typed.slice(start, end));
  return { words, original, spans, typed };
}

/** Words `from..next` (next is exclusive) exactly as typed, for names and notes. */
export function asTyped({ spans, typed }: Words, from: number, next: number): string {
  const first = spans[from];
  const last = spans[next - 1];
  return first === undefined || last === undefined ? "" : typed.slice(first[0], last[1]);
}
