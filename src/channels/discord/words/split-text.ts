import { cleanOutgoing } from "./clean-outgoing.ts";
import { MOST_CHARACTERS } from "./message-payload.ts";

/** Cleaning at most doubles a piece, and there is room for signs of ours around it. */
const PIECE = 900;

/** One line of text, cleaned, in pieces of which each fits a message; nearly always one. */
export function cleanPieces(text: string): readonly string[] {
  return text
    .split("\n")
    .flatMap(cut)
    .map((piece) => cleanOutgoing(piece));
}

function cut(line: string): readonly string[] {
  const pieces: string[] = [];
  let rest = line;
  while (rest.length > PIECE) {
    const space = rest.lastIndexOf(" ", PIECE);
    const at = space > PIECE / 2 ? space : wholeCharacter(rest, PIECE);
    pieces.push(rest.slice(0, at).trimEnd());
    rest = rest.slice(at).trimStart();
  }
  return [...pieces, rest];
}

/** Never between the halves of one character. */
const wholeCharacter = (text: string, at: number): number =>
  /[\uDC00-\uDFFF]/.test(text.charAt(at)) ? at - 1 : at;

/** Lines put into as few messages as hold them, in order, cut at ends of lines. */
export function packLines(lines: readonly string[]): readonly string[] {
  const messages: string[] = [];
  for (const line of lines) {
    const last = messages.at(-1);
    if (last === undefined || last.length + 1 + line.length > MOST_CHARACTERS) messages.push(line);
    else messages[messages.length - 1] = `${last}\n${line}`;
  }
  return messages;
}
