import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadFlite } from "../../src/speech/mouth/flite.ts";

/** The test's speakers: four of flite, two of festival. None of them is heard by users but slt. */
export const voices = ["slt", "rms", "awb", "kal16", "ked", "hts"] as const;
export type TestVoice = (typeof voices)[number];

/** 16 kHz, one channel, with quiet before and after as a microphone hears it. */
export type Clip = {
  readonly said: string;
  readonly voice: TestVoice;
  readonly pace: number;
  readonly samples: Int16Array;
};

export type Speaker = (said: readonly string[], voice: TestVoice, pace: number) => Clip[];

/** How words that a voice's own lexicon misreads are written for it. */
const spelt = (text: string): string =>
  text
    .replace(/\bblix\b/g, "blicks")
    .replace(/\bpart ([abc])\b/g, (_, letter: string) => `part ${letter.toUpperCase()}.`);

export function openSpeaker(): Speaker {
  const flite = loadFlite();
  return (said, voice, pace) => {
    const sounds =
      voice === "ked" || voice === "hts"
        ? festival(said.map(spelt), voice, pace)
        : said.map((text) => flite(spelt(text), voice, pace).samples);
    return said.map((text, at) => ({
      said: text,
      voice,
      pace,
      samples: padded(levelled(sounds[at] ?? new Int16Array())),
    }));
  };
}

/** Voices differ by 10 dB in loudness; here all peak alike. */
function levelled(samples: Int16Array): Int16Array {
  const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 1);
  return samples.map((one) => Math.round((one * 12_000) / peak));
}

function padded(samples: Int16Array): Int16Array {
  const all = new Int16Array(samples.length + 4800 + 4800);
  all.set(samples, 4800);
  return all;
}

const festivalVoice = { ked: "voice_ked_diphone", hts: "voice_cmu_us_slt_arctic_hts" } as const;

/** One festival for many sentences: it takes a second to start. */
function festival(said: readonly string[], voice: "ked" | "hts", pace: number): Int16Array[] {
  const folder = mkdtempSync(join(tmpdir(), "wetside-speech-"));
  try {
    const lines = said.map(
      (text, at) =>
        `(set! u (Utterance Text ${JSON.stringify(text)}))(utt.synth u)(utt.wave.resample u 16000)(utt.save.wave u "${join(folder, `${at}.raw`)}" 'raw)`,
    );
    const head = `(${festivalVoice[voice]})(Parameter.set 'Duration_Stretch ${pace})${voice === "hts" ? `(set! hts_engine_params (cons (list "-r" ${(1 / pace).toFixed(3)}) hts_engine_params))` : ""}`;
    execFileSync("festival", ["--pipe"], { input: [head, ...lines].join("\n") });
    return said.map((_, at) => {
      const raw = readFileSync(join(folder, `${at}.raw`));
      return new Int16Array(raw.buffer.slice(raw.byteOffset, raw.byteOffset + raw.length));
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
