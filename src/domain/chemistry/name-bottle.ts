import { doubleMetaphone } from "double-metaphone";
import { distance } from "fastest-levenshtein";

/** Two names this near in letters are taken for one another when spoken over running water. */
const NEAR = 2;

/**
 * Do two spoken names sound alike? Same sound code (double metaphone), or hardly a letter apart.
 */
export function soundsLike(one: string, other: string): boolean {
  const a = one.toLowerCase().trim();
  const b = other.toLowerCase().trim();
  if (a === b) return true;
  const codesA = doubleMetaphone(a).filter((code) => code !== "");
  const codesB = doubleMetaphone(b).filter((code) => code !== "");
  if (codesA.some((code) => codesB.includes(code))) return true;
  return Math.min(a.length, b.length) > 3 && distance(a, b) < NEAR;
}

/** The first name of the list that sounds like none that was ever used on this bench. */
export const freeName = (list: readonly string[], used: readonly string[]): string | undefined =>
  list.find((name) => !used.some((other) => soundsLike(name, other)));
