/** Letters to the phones of the acoustic model, longest spelling first. Common usage, no source. */
const spellingSounds: readonly (readonly [letters: string, phones: string])[] = [
  ["tion", "SH AH N"],
  ["ough", "AO"],
  ["igh", "AY"],
  ["tch", "CH"],
  ["sch", "SH"],
  ["ch", "CH"],
  ["ck", "K"],
  ["ph", "F"],
  ["sh", "SH"],
  ["th", "TH"],
  ["wh", "W"],
  ["qu", "K W"],
  ["ng", "NG"],
  ["ee", "IY"],
  ["ea", "IY"],
  ["oo", "UW"],
  ["ou", "AW"],
  ["ow", "OW"],
  ["oy", "OY"],
  ["oi", "OY"],
  ["ai", "EY"],
  ["ay", "EY"],
  ["au", "AO"],
  ["aw", "AO"],
  ["er", "ER"],
  ["ir", "ER"],
  ["ur", "ER"],
  ["ar", "AA R"],
  ["or", "AO R"],
  ["x", "K S"],
  ["a", "AE"],
  ["b", "B"],
  ["c", "K"],
  ["d", "D"],
  ["e", "EH"],
  ["f", "F"],
  ["g", "G"],
  ["h", "HH"],
  ["i", "IH"],
  ["j", "JH"],
  ["k", "K"],
  ["l", "L"],
  ["m", "M"],
  ["n", "N"],
  ["o", "AA"],
  ["p", "P"],
  ["q", "K"],
  ["r", "R"],
  ["s", "S"],
  ["t", "T"],
  ["u", "AH"],
  ["v", "V"],
  ["w", "W"],
  ["y", "IY"],
  ["z", "Z"],
];

const long: Readonly<Record<string, string>> = { a: "EY", i: "AY", o: "OW", u: "UW", e: "IY" };

/**
 * How a word that no dictionary has may be spoken: a rough guess by its letters. Undefined for what
 * holds anything but the letters a to z, which cannot be guessed.
 */
export function pronounce(word: string): string | undefined {
  const letters = word.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "").replace(/['-]/g, "");
  if (!/^[a-z]+$/.test(letters)) return undefined;
  const phones: string[] = [];
  let at = 0;
  while (at < letters.length) {
    const rest = letters.slice(at);
    // A vowel, one consonant and a last e: the vowel says its name and the e is silent.
    const named = /^([aeiou])([bcdfgklmnprstvz])e$/.exec(rest);
    if (named !== null) {
      phones.push(long[named[1] ?? ""] ?? "", soundOf(named[2] ?? "").phones);
      break;
    }
    if (
      at > 0 &&
      rest[0] === rest[0]?.toLowerCase() &&
      rest[0] === letters[at - 1] &&
      !/[aeiou]/.test(rest[0] ?? "")
    ) {
      at += 1;
      continue;
    }
    if (/^[cg][eiy]/.test(rest)) {
      phones.push(rest[0] === "c" ? "S" : "JH");
      at += 1;
      continue;
    }
    const { spelling, phones: sound } = soundOf(rest);
    phones.push(sound);
    at += spelling.length;
  }
  return phones.join(" ");
}

function soundOf(rest: string): { spelling: string; phones: string } {
  const found = spellingSounds.find(([spelling]) => rest.startsWith(spelling));
  return { spelling: found?.[0] ?? rest.charAt(0), phones: found?.[1] ?? "AH" };
}
