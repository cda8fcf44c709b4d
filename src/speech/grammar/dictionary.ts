import { PHONES, phoneWord } from "./fsg-text.ts";
import { pronounce } from "./pronounce.ts";

/**
 * Words of the trade and British spellings that the American dictionary lacks or says otherwise
 * than people here do. Common usage, no source.
 */
const ownSounds: Readonly<Record<string, readonly string[]>> = {
  a: ["AH", "EY"],
  blix: ["B L IH K S"],
  litre: ["L IY T ER"],
  litres: ["L IY T ER Z"],
  millilitres: ["M IH L AH L IY T ER Z"],
  prewash: ["P R IY W AA SH", "P R IY W AO SH"],
  preheat: ["P R IY HH IY T"],
  "pre-heat": ["P R IY HH IY T"],
  fixer: ["F IH K S ER"],
  stabilizer: ["S T EY B AH L AY Z ER"],
  replenisher: ["R IH P L EH N IH SH ER"],
  colour: ["K AH L ER"],
  colours: ["K AH L ER Z"],
  harbour: ["HH AA R B ER"],
  gray: ["G R EY"],
  unhold: ["AH N HH OW L D"],
  shush: ["SH AH SH"],
  summarise: ["S AH M ER AY Z"],
  agitates: ["AE JH AH T EY T S"],
  wetside: ["W EH T S AY D"],
};

/** Reads the entries of a pronouncing dictionary (CMU's form) for the words that are wanted. */
export function soundsOf(dictionary: string, words: ReadonlySet<string>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const [word, sounds] of Object.entries(ownSounds)) {
    if (words.has(word)) found.set(word, [...sounds]);
  }
  for (const line of dictionary.split("\n")) {
    const space = line.search(/\s/);
    if (space < 0) continue;
    const word = line.slice(0, space).replace(/\(\d+\)$/, "");
    if (!words.has(word) || Object.hasOwn(ownSounds, word)) continue;
    const sounds = found.get(word) ?? [];
    sounds.push(line.slice(space).trim());
    found.set(word, sounds);
  }
  for (const word of words) {
    if (found.has(word)) continue;
    const guess = pronounce(word);
    if (guess !== undefined) found.set(word, [guess]);
  }
  return found;
}

/** The dictionary file of one grammar: its words, and the phones that other talk is made of. */
export function dictionaryText(sounds: ReadonlyMap<string, readonly string[]>): string {
  const lines = [...sounds].flatMap(([word, ways]) =>
    ways.map((phones, at) => `${word}${at === 0 ? "" : `(${at + 1})`} ${phones}`),
  );
  const phones = PHONES.map((phone) => `${phoneWord(phone)} ${phone}`);
  return [...lines, ...phones, ""].join("\n");
}
