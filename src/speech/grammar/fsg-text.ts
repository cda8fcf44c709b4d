import { WEAK, weakWords } from "./how-usual.ts";
import type { PlainNet } from "./word-net.ts";

export type FsgOptions = {
  /** Weight of talk that is no command, against 1 for the commands; 0 leaves talk out. */
  readonly talk: number;
  /** Chance of each phone within it. */
  readonly each: number;
};

/** A net as PocketSphinx reads it, with a loop of phones beside it that soaks up other talk. */
export function fsgText(name: string, net: PlainNet, { talk, each }: FsgOptions): string {
  const lines: string[] = [];
  const hum = net.next.length;
  const final = hum + 1;
  const row = (from: number, to: number, weight: number, word = ""): void => {
    lines.push(`TRANSITION ${from} ${to} ${weight.toPrecision(6)} ${word}`.trimEnd());
  };
  net.next.forEach((words, from) => {
    for (const [word, to] of words) row(from, to, weakWords.has(word) ? WEAK : 1, word);
  });
  for (const [end, usual] of net.ends) row(end, final, usual);
  if (talk > 0) {
    for (const phone of PHONES) {
      row(0, hum, talk * each, phoneWord(phone));
      row(hum, hum, each, phoneWord(phone));
    }
    row(hum, final, 1);
  }
  return [
    `FSG_BEGIN ${name}`,
    `NUM_STATES ${final + 1}`,
    "START_STATE 0",
    `FINAL_STATE ${final}`,
    ...lines,
    "FSG_END",
    "",
  ].join("\n");
}

/** Nothing but phones in any order: what any sound is compared with. */
export const loopText = (name: string): string =>
  fsgText(name, { next: [new Map()], ends: new Map() }, { talk: 1, each: 1 / 39 });

/** The phones of American English as the acoustic model names them. */
export const PHONES: readonly string[] =
  "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(
    " ",
  );

/** A phone as a word of the dictionary. */
export const phoneWord = (phone: string): string => `_${phone.toLowerCase()}`;

/** Everyday words in any order, each with its chance: what talk is explained by. */
export function anyTalkText(
  name: string,
  words: readonly { readonly word: string; readonly chance: number }[],
): string {
  return [
    `FSG_BEGIN ${name}`,
    "NUM_STATES 2",
    "START_STATE 0",
    "FINAL_STATE 1",
    ...words.map(({ word, chance }) => `TRANSITION 0 0 ${chance.toExponential(4)} ${word}`),
    "TRANSITION 0 1 1",
    "FSG_END",
    "",
  ].join("\n");
}
