import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { DEBIAN_MODEL } from "./debian-model.ts";

/** One part of voice, whether it is there, and the one command that brings it. */
export type SpeechPart = {
  readonly part: string;
  readonly there: boolean;
  /** What is lost without it. */
  readonly without: string;
  readonly get: string;
};

const PACKAGES = "npm run add-voice";
const SYSTEM = "sudo apt-get install pocketsphinx-en-us libpocketsphinx3 flite alsa-utils";

/** Looks for all that voice needs. Nothing is loaded into this process but the binding itself. */
export function checkSpeech(model: string = DEBIAN_MODEL): readonly SpeechPart[] {
  const require = createRequire(import.meta.url);
  const has = (name: string): boolean => {
    try {
      require.resolve(name);
      return true;
    } catch {
      return false;
    }
  };
  const binding = has("koffi");
  const library = (name: string): boolean => {
    if (!binding) return false;
    try {
      (require("koffi") as typeof import("koffi")).load(name);
      return true;
    } catch {
      return false;
    }
  };
  const program = (name: string): boolean =>
    spawnSync("sh", ["-c", 'command -v "$1"', "sh", name], { stdio: "ignore" }).status === 0;
  const deaf = "nothing is heard";
  return [
    { part: "binding to C (koffi)", there: binding, without: deaf, get: PACKAGES },
    {
      part: "noise reduction (rnnoise)",
      there: has("@echogarden/rnnoise-wasm"),
      without: deaf,
      get: PACKAGES,
    },
    {
      part: "recogniser (libpocketsphinx3)",
      there: library("libpocketsphinx.so.3"),
      without: deaf,
      get: SYSTEM,
    },
    {
      part: "English model (pocketsphinx-en-us)",
      there: existsSync(join(model, "en-us", "mdef")),
      without: deaf,
      get: SYSTEM,
    },
    {
      part: "voice (flite)",
      there: library("libflite_cmu_us_slt.so.1"),
      without: "tones only, no words",
      get: SYSTEM,
    },
    {
      part: "Opus (opusscript)",
      there: has("opusscript"),
      without: "no sound in Discord",
      get: PACKAGES,
    },
    {
      part: "microphone and speaker tools",
      there: ["pw-record", "parec", "arecord"].some(program),
      without: "no local voice",
      get: SYSTEM,
    },
  ];
}

/** The commands that bring what is missing, each once. */
export const speechCommands = (parts: readonly SpeechPart[]): readonly string[] => [
  ...new Set(parts.filter(({ there }) => !there).map(({ get }) => get)),
];
