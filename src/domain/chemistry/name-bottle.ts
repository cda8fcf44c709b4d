import { doubleMetaphone } from "double-metaphone";
import { distance } from "fastest-levenshtein";

/** Two names this near in letters are taken for one another when spoken over running water. */
const NEAR = 2;

type Sound = { readonly letters: string; readonly codes: readonly string[] };

function soundOf(name: string): Sound {
  const letters = name.toLowerCase().trim();
  return { letters, codes: doubleMetaphone(letters).filter((code) => code !== "") };
}

function alike(a: Sound, b: Sound): boolean {
  if (a.letters === b.letters) return true;
  if (a.codes.some((code) => b.codes.includes(code))) return true;
  return Math.min(a.letters.length, b.letters.length) > 3 && distance(a.letters, b.letters) < NEAR;
}

/**
 * Do two spoken names sound alike? Same sound code (double metaphone), or hardly a letter apart.
 */
export const soundsLike = (one: string, other: string): boolean =>
  alike(soundOf(one), soundOf(other));

/** The first name of the list that sounds like none that was ever used on this bench. */
export function freeName(list: readonly string[], used: readonly string[]): string | undefined {
  // Each name is sounded out once: a bench of 200 bottles compares thousands of pairs.
  const taken = used.map(soundOf);
  return list.find((name) => {
    const sound = soundOf(name);
    return !taken.some((other) => alike(sound, other));
  });
}
