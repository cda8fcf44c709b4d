import { type Reply, refuse } from "../../../reply/reply.ts";
import { MOST_CHARACTERS } from "./message-payload.ts";

export type Incoming = { readonly text: string } | { readonly refusal: Reply };

/** Letters that show nothing: the Hangul fillers and the empty Braille cell (Unicode names, read). */
const BLANK = /[\u115F\u1160\u2800\u3164\uFFA0]/g;
/** Marks piled on one letter beyond what any script writes; two or three are Vietnamese or Hebrew. */
const PILED = /(\p{M}{3})\p{M}+/gu;
/** A clean text stays as it is after one more round; a second one settles the odd case. */
const ROUNDS = 4;

/**
 * What a person wrote as one line: no invisible, direction-turning or control characters, no piles
 * of marks, and no mention of the bot in front. Never throws; what is clean stays as it is.
 *
 * @param bot  the bot's own id, whose mention opens a message to it
 */
export function cleanIncoming(text: string, bot?: string): Incoming {
  if (text.length > MOST_CHARACTERS) return { refusal: tooLong(text) };
  let clean = text;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = clean;
    clean = withoutMention(tidy(clean), bot);
    if (clean === before) break;
  }
  // Putting letters together may make a few of them longer.
  return clean.length > MOST_CHARACTERS ? { refusal: tooLong(clean) } : { text: clean };
}

const tidy = (text: string): string =>
  text
    .toWellFormed()
    .replace(/\p{Cf}/gu, "")
    .normalize("NFC")
    .replace(PILED, "$1")
    .replace(BLANK, " ")
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Zs}\uFFFD]+/gu, " ")
    .replace(/ {2,}/g, " ")
    .trim();

function withoutMention(text: string, bot: string | undefined): string {
  if (bot === undefined || !/^\d+$/.test(bot)) return text;
  return text.replace(new RegExp(`^(?:<@!?${RegExp.escape(bot)}>[ ,:]*)+`), "");
}

const tooLong = (text: string): Reply =>
  refuse(
    "too-long",
    `That was ${text.length} characters. Say it in one sentence of a line or two.`,
  );
