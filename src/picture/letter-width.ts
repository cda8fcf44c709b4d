/**
 * How wide a letter is, as a share of its size: the widest of the font's regular and bold, rounded
 * up. Measured with the renderer; a test measures again.
 */
const widths: readonly (readonly [width: number, letters: string])[] = [
  [0.21, "'"],
  [0.27, "|j,.:;’"],
  [0.3, "`!i"],
  [0.33, " l"],
  [0.36, "()[]ł"],
  [0.39, '-frt{}"°'],
  [0.42, "_I"],
  [0.45, "/1\\"],
  [0.51, "*csz"],
  [0.54, "yv7x×"],
  [0.57, "?LaJek~é<>Fhnuü"],
  [0.6, "2^og39Ebdpq"],
  [0.63, "$+5ST±48Z6=P"],
  [0.66, "BVRY0CK"],
  [0.69, "ADUX"],
  [0.72, "HGN"],
  [0.75, "&wO"],
  [0.78, "Q#@…"],
  [0.87, "M"],
  [0.9, "mW"],
  [0.99, "%"],
];

/** A letter nobody measured is taken for a wide one. */
const UNKNOWN = 0.9;

const byLetter: ReadonlyMap<string, number> = new Map(
  widths.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width] as const)),
);

export const letterWidth = (letter: string): number => {
  const known = byLetter.get(letter);
  if (known !== undefined) return known;
  // An accent sits on its letter and takes no room.
  const [base = ""] = letter.normalize("NFD");
  return byLetter.get(base) ?? UNKNOWN;
};
