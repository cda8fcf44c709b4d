import { existsSync } from "node:fs";
import { join } from "node:path";
import { DEBIAN_MODEL } from "../../../src/speech/debian-model.ts";

export type SpeechRow = {
  readonly what: string;
  readonly unit: string;
  readonly measured: number | undefined;
  readonly promised?: number;
};

/**
 * What is promised of hearing: at most so many percent of phrases not understood as they were
 * meant. Floors: a little above what was reached, see the table in DEVELOPERS.md.
 */
const missed: Readonly<Record<string, number>> = {
  quiet: 3,
  "white, 20 dB": 25,
  "white, 10 dB": 65,
  "pink, 20 dB": 10,
  "pink, 10 dB": 40,
  "fan, 20 dB": 10,
  "fan, 10 dB": 10,
  "water, 20 dB": 25,
  "water, 10 dB": 75,
};

/** Of everything together, unrelated talk included. */
const NO_WRONG_CHANGE = 0;
const TALK_AN_HOUR = 2;

/** Hearing and speaking; without the speech packages nothing is measured. */
export async function speechRows(whole: boolean): Promise<readonly SpeechRow[]> {
  if (!existsSync(join(DEBIAN_MODEL, "en-us", "mdef"))) {
    return [{ what: "speech: packages are missing", unit: "", measured: undefined, promised: 0 }];
  }
  const { benchPhrases, benchTalk } = await import("./hear.ts");
  const { benchAnswerLag, benchToneLag } = await import("./lag.ts");
  const { places } = await import("./places.ts");
  const options = { every: whole ? 1 : 4, from: 0, whole };
  const tone = await benchToneLag();
  const lag = await benchAnswerLag();
  const heard = await benchPhrases(places, options);
  const talk = await benchTalk({}, { ...options, every: 1 });
  const wrongChanges = heard.reduce((sum, one) => sum + one.wrongChanges, talk.changes);
  const floors = heard.map(({ place, right, clips }): SpeechRow => {
    const promised = missed[place];
    return {
      what: `speech not understood, ${place} (${clips} clips)`,
      unit: "%",
      measured: 100 - right,
      ...(promised === undefined ? {} : { promised }),
    };
  });
  return [
    { what: "cue to its tone, p95", unit: "ms", measured: tone.p95, promised: 40 },
    { what: "end of speech to answer, p50", unit: "ms", measured: lag.p50, promised: 700 },
    { what: "end of speech to answer, p95", unit: "ms", measured: lag.p95, promised: 1200 },
    ...floors,
    {
      what: "speech: changes nobody asked for",
      unit: "",
      measured: wrongChanges,
      promised: NO_WRONG_CHANGE,
    },
    {
      what: `unrelated talk answered, an hour (${talk.minutes.toFixed(1)} min)`,
      unit: "",
      measured: (talk.answered * 60) / talk.minutes,
      promised: TALK_AN_HOUR,
    },
  ];
}
