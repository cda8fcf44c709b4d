import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Engine, EngineGrammar, EngineHeard } from "../engine.ts";
import { dictionaryText, soundsOf } from "../grammar/dictionary.ts";
import { anyTalkText, fsgText, loopText } from "../grammar/fsg-text.ts";
import { loadSphinx, type Pointer, type SphinxLibrary, type UsualWord } from "./sphinx-library.ts";

/** What was found by measuring; see the table in DEVELOPERS.md. */
export type SphinxTuning = {
  /** Weight of a sentence's usualness against its sound. */
  readonly language: number;
  /** Weight of other talk beside the commands, and the chance of each phone within it. */
  readonly talk: number;
  readonly each: number;
  /** How many everyday words an utterance is compared with; 0: with any phones instead. */
  readonly everyday: number;
  /** More options of the decoder, by name. */
  readonly options: Readonly<Record<string, string>>;
};

export const usualTuning: SphinxTuning = {
  language: 4,
  talk: 0.05,
  each: 0.03,
  everyday: 800,
  options: {
    // How far below the best a way is still followed at the end of a word: short words need it wide.
    wbeam: "1e-45",
    // What is noise has been taken off before; what is left of it is the model's to judge.
    remove_noise: "no",
    remove_silence: "no",
    // Scores are relative to the best sound of all, not to the best one still followed: else two
    // decoders cannot be compared, and silence explains whatever everything else was given up for.
    compallsen: "yes",
    // Noise would keep tens of thousands of ways alive; speech needs a few hundred.
    maxhmmpf: "3000",
  },
};

/** The best way has to reach as near the end as this, frames; else it was given up before. */
const NEAR_END = 10;
/** The score of silence, and of what was given up. */
const NOTHING = -99;

/**
 * PocketSphinx in this thread. Two decoders hear the same utterance as it comes: one along the
 * grammar, one along everyday words in any order; how much better the first explains it is the
 * score. Talk is explained better by everyday words, a command by the grammar.
 *
 * @param model folder with the acoustic model `en-us`, the pronouncing dictionary and, where it is
 *   there, the language model the everyday words are taken from
 */
export function openSphinx(model: string, tuning: SphinxTuning = usualTuning): Engine {
  const library = loadSphinx();
  const dictionary = readFileSync(join(model, "cmudict-en-us.dict"), "utf8");
  const everyday = everydayWords(library, model, tuning.everyday);
  let commands: Pointer = null;
  let talk: Pointer = null;

  const close = (): void => {
    for (const decoder of [commands, talk]) if (decoder !== null) library.close(decoder);
    commands = null;
    talk = null;
  };
  const open = ({ net, words }: EngineGrammar): void => {
    const folder = mkdtempSync(join(tmpdir(), "wetside-grammar-"));
    try {
      const file = (name: string, text: string): string => {
        const path = join(folder, name);
        writeFileSync(path, text);
        return path;
      };
      const common = new Set(everyday.map(({ word }) => word));
      const all = soundsOf(dictionary, words.union(common));
      const files = { hmm: join(model, "en-us"), dict: file("words.dict", dictionaryText(all)) };
      const options = { samprate: "16000", ...tuning.options, ...files };
      const grammar = file("commands.fsg", fsgText("commands", net, tuning));
      const any = file(
        "talk.fsg",
        everyday.length === 0 ? loopText("talk") : anyTalkText("talk", everyday),
      );
      commands = decoderOf(library, options, grammar, tuning.language);
      talk = decoderOf(library, { ...options, wbeam: "7e-29" }, any, 1);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  };

  return {
    async prepare(grammar) {
      close();
      open(grammar);
    },
    begin() {
      library.start(commands);
      library.start(talk);
    },
    feed(samples) {
      library.feed(commands, samples, false);
      library.feed(talk, samples, false);
    },
    async end() {
      library.end(commands);
      library.end(talk);
      return heardOf(library, commands, talk);
    },
    close,
  };
}

function everydayWords(library: SphinxLibrary, model: string, count: number): readonly UsualWord[] {
  const file = join(model, "en-us.lm.bin");
  return count === 0 || !existsSync(file) ? [] : library.usualWords(file, count);
}

function decoderOf(
  library: SphinxLibrary,
  options: Readonly<Record<string, string>>,
  grammar: string,
  weight: number,
): Pointer {
  const decoder = library.open(options);
  if (decoder === null) throw new Error("the recogniser cannot read its model");
  if (!library.useGrammar(decoder, grammar, weight)) {
    library.close(decoder);
    throw new Error("the recogniser refused the grammar");
  }
  return decoder;
}

function heardOf(library: SphinxLibrary, commands: Pointer, talk: Pointer): EngineHeard {
  const best = library.best(commands);
  const any = library.best(talk);
  const frames = library.frames(commands);
  if (best === undefined || any === undefined || frames === 0) return { text: "", score: NOTHING };
  const whole = library.reach(commands) >= library.reach(talk) - NEAR_END;
  if (!whole || best.text.startsWith("_")) return { text: "", score: NOTHING };
  return { text: best.text, score: (best.score - any.score) / frames };
}
