import { eveningScript } from "./evening-script.ts";

/** What people said in the long evening: the seeds of what is thrown at the bench. */
export const corpus: readonly string[] = eveningScript.filter((line) => !line.startsWith("@"));

const ODD = [
  "-",
  "0",
  "1e308",
  "999999999999",
  "-3",
  "1/0",
  "½",
  "٣",
  "NaN",
  "{",
  "[",
  "(",
  "|",
  "\\",
  "<@123>",
  "@everyone",
  "'; drop",
  "__proto__",
  "constructor",
  "toString",
  "\u202e",
  "\u200b",
  "e\u0301\u0301\u0301",
  "👩‍🔬",
  "of of of of",
  "and and and",
  "one plus plus one",
  "quarter quarter past past",
  "a a a a a",
];

/** A sentence from the corpus, spoilt in one to four ways. `chance` gives numbers from 0 up to 1. */
export function spoiltSentence(chance: () => number): string {
  const pick = <T>(list: readonly T[]): T | undefined => list[Math.floor(chance() * list.length)];
  let words = (pick(corpus) ?? "").split(" ");
  const somewhere = (): number => Math.floor(chance() * (words.length + 1));
  for (let spoil = 1 + Math.floor(chance() * 4); spoil > 0; spoil -= 1) {
    const at = somewhere();
    switch (Math.floor(chance() * 7)) {
      case 0:
        words = words.toSpliced(at, 1);
        break;
      case 1:
        words = words.toSpliced(at, 0, pick(ODD) ?? "");
        break;
      case 2: {
        const other = (pick(corpus) ?? "").split(" ");
        words = [...words.slice(0, at), ...other.slice(Math.floor(chance() * other.length))];
        break;
      }
      case 3:
        words = words.toSpliced(at, 0, ...words.slice(at, at + 1), ...words.slice(at, at + 1));
        break;
      case 4:
        words = words.toSorted(() => chance() - 0.5);
        break;
      case 5:
        words = words.map((word, index) => (index === at ? `${word.slice(0, 2)}${word}` : word));
        break;
      default:
        words = [
          ...words,
          ...Array.from({ length: Math.floor(chance() * 60) }, () => pick(words) ?? ""),
        ];
    }
  }
  return words.join(" ");
}
