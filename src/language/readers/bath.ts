import type { Reading } from "../reader.ts";
import { byLength, phrases } from "./phrases.ts";

/** The kinds of bath a process may have. */
export type BathKind =
  | "prewash"
  | "prebath"
  | "developer"
  | "first developer"
  | "second developer"
  | "colour developer"
  | "stop"
  | "bleach"
  | "fixer"
  | "blix"
  | "wash"
  | "stabilizer"
  | "reversal"
  | "conditioner"
  | "wetting agent"
  | "hypo clear";

/** Common usage, no source. `words.ts` has already made "dev" developer and "color" colour. */
const readKind = phrases<BathKind>([
  ["prewash", "prewash, pre-wash, pre wash, presoak, pre-soak, pre soak, prewet, pre-wet, pre wet"],
  ["prebath", "prebath, pre-bath, pre bath"],
  ["developer", "developer, developper, develop, developing, film developer"],
  ["first developer", "first developer, 1st developer, black and white developer, fd"],
  ["second developer", "second developer, 2nd developer"],
  ["colour developer", "colour developer, cd"],
  ["stop", "stop, stop bath, stopbath, stopper"],
  ["bleach", "bleach, bleaching"],
  ["fixer", "fixer, fix, fixing, hypo, rapid fixer"],
  [
    "blix",
    "blix, bleach fix, bleach-fix, bleachfix, bleach fixer, bleach-fixer, bleach and fix bath",
  ],
  ["wash", "wash, rinse, water wash, water rinse, washing, water, first wash, final wash"],
  ["stabilizer", "stabilizer, stab, final rinse, stabilizing, stabilising, stabiliser"],
  ["reversal", "reversal, reversal agent"],
  ["conditioner", "conditioner, pre-bleach, prebleach, pre bleach"],
  ["wetting agent", "wetting agent, wetting, wetter, rinse aid"],
  ["hypo clear", "hypo clear, hypo clearing, hypo clearing agent, hca, washing aid, wash aid"],
]);

const openings: ReadonlySet<string> = new Set(["the", "a", "my", "some", "our"]);
const nouns: ReadonlySet<string> = new Set(["bath", "solution"]);

/** The slots `{bath}` and `{solution}`. */
export function readBath(words: readonly string[], from: number): readonly Reading<BathKind>[] {
  const start = openings.has(words[from] ?? "") ? from + 1 : from;
  return byLength(
    readKind(words, start).flatMap(({ value, next }) =>
      nouns.has(words[next] ?? "")
        ? [
            { value, next: next + 1 },
            { value, next },
          ]
        : [{ value, next }],
    ),
  );
}
