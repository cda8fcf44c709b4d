/** Signs and short forms as a voice should read them. Common usage, no source. */
const spelt: readonly (readonly [RegExp, string])[] = [
  [/\bC-41\b/g, "C forty one"],
  [/\bE-6\b/g, "E six"],
  [/\bECN-2\b/g, "E C N two"],
  [/\bD-(\d+)\b/g, "D $1"],
  [/\b[Bb]lix\b/g, "blicks"],
  [/(\d+):(\d\d)\b/g, "$1 $2"],
  [/(\d) ?mL\b/g, "$1 millilitres"],
  [/(\d) ?L\b/g, "$1 litres"],
  [/(\d) ?fl oz\b/g, "$1 ounces"],
  [/ ?°C\b/g, " degrees"],
  [/ ?°F\b/g, " Fahrenheit"],
  [/±/g, "plus or minus "],
  [/ ?%/g, " percent"],
  [/(\d)\+(\d)/g, "$1 plus $2"],
  [/ × /g, " times "],
  [/["“”]/g, ""],
  [/[()]/g, ", "],
];

/** The words of a reply as they are given to a voice. */
export const readable = (words: string): string =>
  spelt
    .reduce((text, [sign, word]) => text.replace(sign, word), words)
    .replace(/\s+/g, " ")
    .trim();
