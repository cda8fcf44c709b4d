import { createRequire } from "node:module";

/** A pointer of the C library; only handed back to it. */
export type Pointer = { readonly __pointer: never } | null;

/**
 * The few functions of PocketSphinx that are used, called in this process. Only ever loaded in a
 * worker thread: a fault in C takes the thread's process down no matter what, but a decode that
 * takes long holds up nobody.
 */
export type SphinxLibrary = {
  /** Options by name, all as text; null when the decoder cannot be made of them. */
  open(options: Readonly<Record<string, string>>): Pointer;
  close(decoder: Pointer): void;
  /** Reads a grammar file and decodes along it from now on; `weight` is that of its probabilities. */
  useGrammar(decoder: Pointer, file: string, weight: number): boolean;
  start(decoder: Pointer): boolean;
  /** `whole`: these are all samples of the utterance, so that the level is set over all of them. */
  feed(decoder: Pointer, samples: Int16Array, whole: boolean): boolean;
  end(decoder: Pointer): boolean;
  /** The words and the score of the best way through, in logs of the decoder's base. */
  best(decoder: Pointer): { readonly text: string; readonly score: number } | undefined;
  frames(decoder: Pointer): number;
  /** The last frame the best way through covers: before the end where all ways were given up. */
  reach(decoder: Pointer): number;
  /** The most usual words of a language model file, each with its chance. */
  usualWords(file: string, count: number): readonly UsualWord[];
};

export type UsualWord = { readonly word: string; readonly chance: number };

/** Names of the shared library, the usual one first. */
const LIBRARIES = ["libpocketsphinx.so.3", "libpocketsphinx.so"] as const;
const BASES = ["libsphinxbase.so.3", "libsphinxbase.so"] as const;
const LOG_BASE = 1.0001;
/** The name a decoder knows its only grammar by. */
const NAME = "wetside";

/** @throws when koffi or the library is not there */
export function loadSphinx(): SphinxLibrary {
  const koffi = createRequire(import.meta.url)("koffi") as typeof import("koffi");
  const first = (names: readonly string[]): ReturnType<typeof koffi.load> => {
    let fault: unknown;
    for (const name of names) {
      try {
        return koffi.load(name);
      } catch (error) {
        fault = error;
      }
    }
    throw fault;
  };
  const base = first(BASES);
  const sphinx = first(LIBRARIES);
  const args = sphinx.func("const void *ps_args()");
  const configure = base.func("void *cmd_ln_init(void *was, const void *known, int strict, ...)");
  const freeConfig = base.func("int cmd_ln_free_r(void *config)");
  const hush = base.func("void err_set_logfp(void *file)");
  const init = sphinx.func("void *ps_init(void *config)");
  const free = sphinx.func("int ps_free(void *decoder)");
  const logmath = sphinx.func("void *ps_get_logmath(void *decoder)");
  const readGrammar = base.func("void *fsg_model_readfile(const char *file, void *logs, float lw)");
  const freeGrammar = base.func("int fsg_model_free(void *grammar)");
  const setGrammar = sphinx.func("int ps_set_fsg(void *decoder, const char *name, void *grammar)");
  const setSearch = sphinx.func("int ps_set_search(void *decoder, const char *name)");
  const startUtterance = sphinx.func("int ps_start_utt(void *decoder)");
  const process = sphinx.func(
    "int ps_process_raw(void *decoder, const int16_t *samples, size_t count, int noSearch, int whole)",
  );
  const endUtterance = sphinx.func("int ps_end_utt(void *decoder)");
  const hypothesis = sphinx.func("const char *ps_get_hyp(void *decoder, _Out_ int32_t *score)");
  const firstSegment = sphinx.func("void *ps_seg_iter(void *decoder)");
  const nextSegment = sphinx.func("void *ps_seg_next(void *segment)");
  const segmentFrames = sphinx.func(
    "void ps_seg_frames(void *segment, _Out_ int *first, _Out_ int *last)",
  );
  const logs = base.func("void *logmath_init(double base, int shift, int table)");
  const freeLogs = base.func("int logmath_free(void *logs)");
  const readModel = base.func(
    "void *ngram_model_read(void *config, const char *file, int type, void *logs)",
  );
  const freeModel = base.func("int ngram_model_free(void *model)");
  const counts = base.func("uint32_t *ngram_model_get_counts(void *model)");
  const wordOf = base.func("const char *ngram_word(void *model, int32_t id)");
  const chanceOf = base.func(
    "int32_t ngram_ng_prob(void *model, int32_t id, void *before, int32_t count, _Out_ int32_t *used)",
  );
  const frameCount = sphinx.func("int ps_get_n_frames(void *decoder)");
  hush(null);

  return {
    open(options) {
      const list = Object.entries(options).flatMap(([name, value]) => [
        "const char *",
        `-${name}`,
        "const char *",
        value,
      ]);
      const config = configure(null, args(), 1, ...list, "void *", null) as Pointer;
      if (config === null) return null;
      const decoder = init(config) as Pointer;
      freeConfig(config);
      return decoder;
    },
    close: (decoder) => void free(decoder),
    useGrammar(decoder, file, weight) {
      const grammar = readGrammar(file, logmath(decoder), weight) as Pointer;
      if (grammar === null) return false;
      const done = (setGrammar(decoder, NAME, grammar) as number) === 0;
      freeGrammar(grammar);
      return done && (setSearch(decoder, NAME) as number) === 0;
    },
    start: (decoder) => (startUtterance(decoder) as number) === 0,
    feed: (decoder, samples, whole) =>
      (process(decoder, samples, samples.length, 0, whole ? 1 : 0) as number) >= 0,
    end: (decoder) => (endUtterance(decoder) as number) === 0,
    best(decoder) {
      const score = [0];
      const text = hypothesis(decoder, score) as string | null;
      return text === null ? undefined : { text, score: score[0] ?? 0 };
    },
    frames: (decoder) => frameCount(decoder) as number,
    reach(decoder) {
      let last = -1;
      let segment = firstSegment(decoder) as Pointer;
      while (segment !== null) {
        const ends = [0];
        segmentFrames(segment, [0], ends);
        last = ends[0] ?? last;
        segment = nextSegment(segment) as Pointer;
      }
      return last;
    },
    usualWords(file, count) {
      const math = logs(LOG_BASE, 0, 0);
      const model = readModel(null, file, 0, math) as Pointer;
      if (model === null) throw new Error("the language model cannot be read");
      const total = (koffi.decode(counts(model), koffi.array("uint32_t", 1)) as number[])[0] ?? 0;
      const all: UsualWord[] = [];
      for (let id = 0; id < total; id += 1) {
        const word = wordOf(model, id) as string;
        if (!/^[a-z']+$/.test(word)) continue;
        all.push({ word, chance: LOG_BASE ** (chanceOf(model, id, null, 0, [0]) as number) });
      }
      freeModel(model);
      freeLogs(math);
      return all.sort((a, b) => b.chance - a.chance).slice(0, count);
    },
  };
}
