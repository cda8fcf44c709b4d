import { err, ok, type Result } from "../../domain/result.ts";
import type { Answers } from "../../domain/teaching/answers.ts";
import type { Listening } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { toWords } from "../../language/words.ts";

const ordinals = ["first", "second", "third", "fourth", "fifth"];
const between = new Set([
  "it",
  "is",
  "they",
  "are",
  "and",
  "then",
  "next",
  "finally",
  "a",
  "the",
  "last",
  ...ordinals,
]);

/**
 * Baths in the order of use. Commas and "and" part them, so that "bleach, fix" is two baths and
 * "bleach fix" one; spoken without a pause they are read one after the other.
 */
export function readBaths(typed: string, listening: Listening): Result<Answers["baths"], string> {
  const kinds: string[] = [];
  for (const piece of typed.split(/[,;]|\b(?:and|then)\b/i)) {
    const { words, original } = toWords(piece);
    for (let at = 0; at < words.length; ) {
      const reading = readers.bath(words, at, listening)[0];
      if (reading !== undefined) {
        kinds.push(String(reading.value));
        at = reading.next;
      } else if (between.has(words[at] ?? "")) at += 1;
      else {
        return err(
          `I do not know the bath "${original[at] ?? ""}". I know developer, stop, bleach, fixer, blix, wash, stabilizer, prewash, reversal and more. Read them all again.`,
        );
      }
    }
  }
  if (kinds.length === 0) {
    return err("Name the baths in the order of use, like developer, blix, wash.");
  }
  if (kinds.length > 12) return err("Twelve baths at most. Read them again.");
  return ok(
    kinds.map((kind, index) => {
      const same = kinds.filter((other) => other === kind).length;
      const nth = kinds.slice(0, index).filter((other) => other === kind).length;
      return { kind, name: same === 1 ? kind : `${ordinals[nth] ?? `${nth + 1}th`} ${kind}` };
    }),
  );
}
