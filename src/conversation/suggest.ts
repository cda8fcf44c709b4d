import { distance } from "fastest-levenshtein";
import type { Command } from "../commands/define-command.ts";
import type { Listening } from "../language/reader.ts";
import { wordsOf } from "../language/template.ts";
import type { Words } from "../language/words.ts";

/** How many letters a slip may change: none in short words, one in middling ones, two in long ones. */
const slips = (word: string): number => (word.length < 4 ? 0 : word.length < 7 ? 1 : 2);

type Vocabulary = {
  /** The words sentences are made of. */
  readonly all: ReadonlySet<string>;
  /** The words each command goes by. */
  readonly own: ReadonlyMap<Command, ReadonlySet<string>>;
};

/** Worked out once: the commands stay the same for as long as the program runs. */
const vocabularies = new WeakMap<readonly Command[], Vocabulary>();

function vocabularyOf(commands: readonly Command[]): Vocabulary {
  const known = vocabularies.get(commands);
  if (known !== undefined) return known;
  const all = new Set<string>(spokenWords);
  const own = new Map<Command, ReadonlySet<string>>();
  for (const command of commands) {
    const words = command.sentences.flatMap(({ node }) => wordsOf(node));
    for (const word of words) all.add(word);
    const examples = command.examples.flatMap((text) => text.toLowerCase().split(/\W+/));
    own.set(command, new Set([...words, ...examples, command.name]));
  }
  const vocabulary = { all, own };
  vocabularies.set(commands, vocabulary);
  return vocabulary;
}

/** The word with two neighbouring letters exchanged, the commonest slip of all. */
const swaps = (word: string): readonly string[] =>
  [...word.slice(1)].map(
    (letter, at) => word.slice(0, at) + letter + word.charAt(at) + word.slice(at + 2),
  );

/** What slot readers know and templates do not name. */
const spokenWords = [
  "developer",
  "bleach",
  "fixer",
  "blix",
  "wash",
  "stabilizer",
  "quart",
  "quarts",
  "litre",
  "litres",
  "millilitres",
  "gallon",
  "ounces",
  "minutes",
  "seconds",
  "degrees",
  "yesterday",
  "today",
  "rolls",
  "imperial",
];

/** Parts of a body, and words of mishaps: who says them wants no sums and no settings. */
const harm = new Set(
  (
    "eye eyes hand hands finger fingers thumb arm arms skin face mouth nose throat head leg legs " +
    "foot feet chest lungs stomach hurt hurts pain painful sore bled blood choke sick faint " +
    "broke broken smashed shattered burst spill spilled spilt spilling leak leaks leaked leaking " +
    "accident poison poisoned poisonous gas smoke fire mercury smell smells stinks fell dropped"
  ).split(" "),
);

/** Does a sentence that nothing reads speak of somebody hurt, or of something broken or spilt? */
export const tellsOfHarm = ({ words }: Pick<Words, "words">): boolean =>
  words.some((word) => harm.has(word));

/**
 * For a sentence that means nothing: the same sentence with misspelt words mended, if mending
 * changes it, and the three commands that share most words with it. Where it tells of harm the words
 * for that, and nothing else: it is no time to guess.
 */
export function nearest(
  sentence: Words,
  commands: readonly Command[],
  listening: Listening,
): { readonly correction: string | undefined; readonly commands: readonly Command[] } {
  if (tellsOfHarm(sentence)) {
    const helpers = ["emergency", "trouble"];
    const first = helpers.flatMap(
      (name) => commands.find((command) => command.name === name) ?? [],
    );
    return { correction: undefined, commands: first };
  }
  const { all: vocabulary, own } = vocabularyOf(commands);
  const names = [...listening.names.bottle.keys(), ...listening.names.sheet.keys()].flatMap(
    (name) => name.split(" "),
  );
  let mended = false;
  const words = sentence.words.map((word) => {
    if (vocabulary.has(word) || /\d/.test(word) || names.includes(word)) return word;
    const swapped =
      word.length < 3
        ? undefined
        : swaps(word).find((known) => vocabulary.has(known) || names.includes(known));
    if (swapped !== undefined) {
      mended = true;
      return swapped;
    }
    const allowed = slips(word);
    if (allowed === 0) return word;
    let best = word;
    let least = allowed + 1;
    for (const known of [...vocabulary, ...names]) {
      if (Math.abs(known.length - word.length) > allowed) continue;
      const off = distance(word, known);
      if (off < least) {
        least = off;
        best = known;
      }
    }
    if (best !== word) mended = true;
    return best;
  });
  const said = new Set(words.filter((word) => word.length > 2 && !small.has(word)));
  const shared = (command: Command): number =>
    [...said].filter((word) => own.get(command)?.has(word)).length;
  const ranked = commands
    .map((command, index) => ({ command, index, score: shared(command) }))
    .sort((a, b) => b.score - a.score || rank(a.command) - rank(b.command) || a.index - b.index)
    .slice(0, 3);
  return {
    correction: mended ? words.join(" ") : undefined,
    commands: ranked.map(({ command }) => command),
  };
}

/** Words that say nothing about what is wanted. */
const small = new Set([
  "the",
  "and",
  "for",
  "with",
  "that",
  "this",
  "what",
  "how",
  "you",
  "are",
  "now",
]);

/** What most people want first, when nothing else tells commands apart. */
const first = ["start", "batch", "bottles", "help"];
const rank = ({ name }: Command): number => {
  const at = first.indexOf(name);
  return at < 0 ? first.length : at;
};
