import type { Said } from "./sentences.ts";

/** How the bench speaks. */
export const voiceSentences: Readonly<Record<string, readonly Said[]>> = {
  volume: [
    ["volume 60 percent", { percent: { percent: 60 } }],
    ["set the volume to eighty percent", { percent: { percent: 80 } }],
    ["volume"],
  ],
  louder: [["louder"], ["speak louder please"], ["turn it up"]],
  softer: [["softer"], ["speak more softly"], ["a bit quieter"], ["volume down"]],
  "speak cues": [["cues only"], ["say less"], ["speak cues only"]],
  "speak short": [["speak normally"], ["talk as usual"], ["answer aloud"]],
  "speak full": [["say more"], ["read everything"], ["read me all lines"]],
};
