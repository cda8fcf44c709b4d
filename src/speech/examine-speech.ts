import { type SpeechPart, speechCommands } from "./check-speech.ts";

/** Whether this machine can hear and speak, for the doctor. Without it everything else works. */
export function examineSpeech(parts: readonly SpeechPart[]): {
  readonly kind: "good" | "note";
  readonly what: string;
  readonly says: string;
} {
  const missing = parts.filter(({ there }) => !there);
  if (missing.length === 0) {
    return { kind: "good", what: "voice", says: "everything to hear and to speak with is there" };
  }
  const names = missing.map(({ part, without }) => `${part} (${without})`).join(", ");
  return {
    kind: "note",
    what: "voice",
    says: `missing: ${names}; everything else works. This adds it: ${speechCommands(parts).join(" && ")}`,
  };
}
