/** A backslash before one of these shows the sign itself (CommonMark's escapes, which Discord keeps). */
const ESCAPED = /^\\[!-/:-@[-`{-~]/;

/** Signs that are markup wherever they stand: emphasis, code, and everything in "<...>". */
const ALWAYS: ReadonlySet<string> = new Set(["*", "_", "`", "<"]);
/** Signs that are markup twice: struck out, hidden. */
const TWICE: ReadonlySet<string> = new Set(["~", "|"]);

/** What makes a line a heading, small print, a quotation or an item of a list. */
const OPENING = /^(?:#{1,6}|-#|>{1,3}|[-+])(?=\s|$)|^>/;
const ITEM = /^(\d{1,9})([.)])(?=\s|$)/;

/** A name between colons is a picture; 19:30:05 and "20:00: order fixer" are times. */
const PICTURE = /^:(?=(?:[^\s:\\]|\\@){1,80}:)/;
const TIME = /^:\d{1,2}:/;
/** An invitation needs no "https" to become a card. */
const INVITATION = /^(discord(?:app)?)\.(?=[a-z]{2,12}\/)/i;

/** Stands behind every "@", so that no name follows it. */
const BREAK = "\u200B";

/**
 * Text of people, or with names of theirs in it, as text: nothing in it is ever emphasis, a link,
 * a mention, a picture or a time of Discord's. Shows as it was written; what is clean stays as it
 * is, since a sign that is escaped already is left alone.
 */
export function cleanOutgoing(text: string): string {
  return text
    .toWellFormed()
    .replace(/\p{Cf}/gu, "")
    .replace(/\r\n?|[\p{Zl}\p{Zp}]/gu, "\n")
    .replace(/[^\P{Cc}\n]/gu, " ")
    .split("\n")
    .map(cleanLine)
    .join("\n");
}

function cleanLine(line: string): string {
  const margin = /^\s*/.exec(line)?.[0] ?? "";
  const body = line.slice(margin.length);
  return margin + cleanSigns(opened(body));
}

/** The line with its opening sign escaped, where that would make more of it than a line. */
function opened(body: string): string {
  if (OPENING.test(body)) return `\\${body}`;
  return body.replace(ITEM, "$1\\$2");
}

function cleanSigns(body: string): string {
  let clean = "";
  let at = 0;
  while (at < body.length) {
    const rest = body.slice(at, at + 100);
    const character = body.charAt(at);
    const pair = ESCAPED.exec(rest)?.[0];
    const invitation = INVITATION.exec(rest);
    if (pair !== undefined && pair !== "\\@") {
      clean += pair;
      at += pair.length;
    } else if (invitation !== null) {
      clean += `${invitation[1]}\\.`;
      at += invitation[0].length;
    } else {
      clean += sign(character, rest, body.charAt(at - 1));
      at += 1;
    }
  }
  return clean;
}

function sign(character: string, rest: string, before: string): string {
  const escaped = `\\${character}`;
  if (ALWAYS.has(character)) return escaped;
  if (TWICE.has(character)) {
    return before === character || rest.charAt(1) === character ? escaped : character;
  }
  switch (character) {
    case "@":
      return `@${BREAK}`;
    case "\\":
      return rest.startsWith("\\@") ? "" : escaped;
    case "(":
      // "[text](address)" is a link however its brackets are escaped.
      return before === "]" ? escaped : character;
    case ":":
      return rest.startsWith("://") || (PICTURE.test(rest) && !TIME.test(rest))
        ? escaped
        : character;
    default:
      return character;
  }
}
