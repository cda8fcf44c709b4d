import { createRequire } from "node:module";

/** Spoken sound: 16-bit samples, one channel. */
export type Spoken = { readonly samples: Int16Array; readonly rate: number };

export type FliteVoice = "slt" | "rms" | "awb" | "kal16";

/**
 * Flite in this process. It blocks for as long as it computes, so only a worker thread loads it.
 * `pace`: 1 is as the voice was recorded, 1.2 is a fifth slower.
 */
export type Flite = (text: string, voice: FliteVoice, pace: number) => Spoken;

/** @throws when koffi or a library of flite is not there */
export function loadFlite(): Flite {
  const koffi = createRequire(import.meta.url)("koffi") as typeof import("koffi");
  // What the voices stand on has to be there before them.
  const core = koffi.load("libflite.so.1", { global: true });
  const english = koffi.load("libflite_usenglish.so.1", { global: true });
  const lexicon = koffi.load("libflite_cmulex.so.1", { global: true });
  const Wave = koffi.struct({
    type: "void *",
    rate: "int",
    count: "int",
    channels: "int",
    samples: "int16_t *",
  });
  const Voice = koffi.struct({ name: "void *", features: "void *" });
  const init = core.func("int flite_init()");
  const speak = core.func("void *flite_text_to_wave(const char *text, void *voice)");
  const free = core.func("void delete_wave(void *wave)");
  // Flite keeps the pointer to the name, so its bytes have to stay where they are.
  const setFloat = core.func("void feat_set_float(void *features, void *name, float value)");
  const stretch = koffi.alloc("char", 32) as unknown;
  koffi.encode(stretch, koffi.array("char", 32, "String"), "duration_stretch");
  init();

  // A library whose handle is collected is unloaded, voice and all: each is held on to.
  const libraries: unknown[] = [core, english, lexicon];
  const voices = new Map<FliteVoice, unknown>();
  const open = (voice: FliteVoice): unknown => {
    const known = voices.get(voice);
    if (known !== undefined) return known;
    const library = koffi.load(`libflite_cmu_us_${voice}.so.1`);
    libraries.push(library);
    const made = library.func(`void *register_cmu_us_${voice}(const char *directory)`)(null);
    voices.set(voice, made);
    return made;
  };

  return (text, voice, pace) => {
    const speaker = open(voice);
    const { features } = koffi.decode(speaker, Voice) as { features: unknown };
    setFloat(features, stretch, pace);
    const wave = speak(text, speaker) as unknown;
    if (wave === null) throw new Error(`flite could not say "${text}"`);
    try {
      const { rate, count, samples } = koffi.decode(wave, Wave) as {
        rate: number;
        count: number;
        samples: unknown;
      };
      const array = koffi.decode(samples, koffi.array("int16_t", count, "Typed")) as Int16Array;
      return { samples: Int16Array.from(array), rate };
    } finally {
      free(wave);
    }
  };
}
