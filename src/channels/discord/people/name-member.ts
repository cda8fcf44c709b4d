import { toWords } from "../../../language/words.ts";

const LONGEST = 24;

/** What is left of a display name: letters, digits and a few signs that stand in names. */
function plainName(display: string): string {
  const { typed } = toWords(display.slice(0, 100));
  return typed
    .replace(/[^\p{L}\p{M}\p{N} .'-]/gu, "")
    .replace(/\s+/g, " ")
    .trim()
    .slice(0, LONGEST)
    .toWellFormed()
    .trim();
}

/**
 * The name by which a bench knows a member: made once from what they are called in the guild, and
 * unlike every name in `taken`.
 */
export function nameMember(display: string, taken: Iterable<string>): string {
  const plain = plainName(display);
  const name = /[\p{L}\p{N}]/u.test(plain) ? plain : "member";
  const used = new Set([...taken].map((one) => one.toLowerCase()));
  if (!used.has(name.toLowerCase())) return name;
  let number = 2;
  while (used.has(`${name} ${number}`.toLowerCase())) number += 1;
  return `${name} ${number}`;
}
