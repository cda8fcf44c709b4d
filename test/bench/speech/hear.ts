import { loadCommands } from "../../../src/commands/registry.ts";
import type { SphinxTuning } from "../../../src/speech/engines/sphinx.ts";
import { judge } from "../../../src/speech/trust/judge.ts";
import { WAKE_WORD } from "../../../src/speech/wake-word.ts";
import { listen, openTestEngine, type Place } from "../../speech/listen.ts";
import { meaningOf } from "../../speech/meaning.ts";
import { phrases } from "../../speech/phrases.ts";
import { talk } from "../../speech/talk.ts";
import { type Clip, openSpeaker, voices } from "../../speech/voices.ts";
import { evening } from "../../support/runs.ts";
import { busyBench } from "../../support/understand.ts";

export const paces = [0.85, 1, 1.15] as const;

export type HearOptions = {
  /** Every how many-th phrase, and which of them. */
  readonly every: number;
  readonly from: number;
  /** All voices at all paces, or one of each a phrase, in turn. */
  readonly whole: boolean;
  readonly tuning?: SphinxTuning;
};

export type PlaceResult = {
  readonly place: string;
  readonly clips: number;
  /** In percent: the right command with the right fields. */
  readonly right: number;
  /** Done without a question though something else was said, and of these what changed something. */
  readonly wrong: number;
  readonly wrongChanges: number;
  /** In percent: done at once, asked back with the right words, not understood. */
  readonly done: number;
  readonly asked: number;
  readonly nothing: number;
  /** What went wrong, in words. */
  readonly errors: readonly string[];
};

const commands = await loadCommands();
const changing = new Map(commands.map(({ name, changes }) => [name, changes]));
const speak = openSpeaker();

const judged = (text: string, score: number, noisy: boolean) =>
  judge(
    {},
    { text, score, noisy, byKey: false },
    {
      record: { ...busyBench, bench: { ...busyBench.bench, runs: {} } },
      who: "you",
      now: evening,
      commands,
    },
  ).judgement;

/** The phrases spoken by the test's voices; what changes something with the wake word in front. */
function phraseClips({ every, from, whole }: HearOptions): readonly Clip[] {
  const chosen = phrases.filter((_, at) => at % every === from);
  const texts = chosen.map(({ command, said }) =>
    changing.get(command) === true ? `${WAKE_WORD} ${said}` : said,
  );
  if (whole) return voices.flatMap((voice) => paces.flatMap((pace) => speak(texts, voice, pace)));
  return voices.flatMap((voice, which) => {
    const mine = texts.filter((_, at) => (at + from) % voices.length === which);
    return paces.flatMap((pace, step) =>
      speak(
        mine.filter((_, at) => at % paces.length === step),
        voice,
        pace,
      ),
    );
  });
}

/** How well the phrases are heard in each place. */
export async function benchPhrases(
  places: readonly Place[],
  options: HearOptions,
): Promise<readonly PlaceResult[]> {
  const engine = await openTestEngine(commands, options.tuning);
  const clips = phraseClips(options);
  const results: PlaceResult[] = [];
  for (const place of places) {
    const heard = await listen(engine, clips, place);
    const tally = { right: 0, wrong: 0, wrongChanges: 0, done: 0, asked: 0, nothing: 0 };
    const errors: string[] = [];
    heard.forEach((events, at) => {
      const clip = clips[at];
      if (clip === undefined) return;
      const meant = meaningOf(clip.said, commands);
      const best = events.find(({ text }) => meaningOf(text, commands) === meant) ?? events[0];
      const right = best !== undefined && meaningOf(best.text, commands) === meant;
      if (right) tally.right += 1;
      else
        errors.push(
          `${clip.voice} ${clip.pace} "${clip.said}": ${events.map(({ text, score }) => `"${text}" ${score.toFixed(1)}`).join(", ")}`,
        );
      // Everything that was heard of a clip counts here, not the best of it.
      for (const { text, score, noisy } of events) {
        if (judged(text, score, noisy).kind !== "pass") continue;
        const got = meaningOf(text, commands);
        if (got === meant) continue;
        tally.wrong += 1;
        if (changing.get(JSON.parse(got ?? "[]")[0]) !== true) continue;
        tally.wrongChanges += 1;
        errors.push(`CHANGED ${clip.voice} "${clip.said}": "${text}" ${score.toFixed(1)}`);
      }
      const judgement = best === undefined ? undefined : judged(best.text, best.score, best.noisy);
      if (judgement?.kind === "pass") tally.done += 1;
      else if (judgement?.kind === "ask") tally.asked += 1;
      else tally.nothing += 1;
    });
    const percent = (count: number): number => (100 * count) / Math.max(1, clips.length);
    results.push({
      place: place.noise === undefined ? "quiet" : `${place.noise}, ${place.db} dB`,
      clips: clips.length,
      right: percent(tally.right),
      wrong: percent(tally.wrong),
      wrongChanges: tally.wrongChanges,
      done: percent(tally.done),
      asked: percent(tally.asked),
      nothing: percent(tally.nothing),
      errors,
    });
  }
  engine.close();
  return results;
}

export type TalkResult = {
  readonly minutes: number;
  /** Answered aloud in any way, also by a question; and what changed the bench. */
  readonly answered: number;
  readonly changes: number;
  readonly errors: readonly string[];
};

/** Unrelated talk: whatever is answered is one too many. */
export async function benchTalk(place: Place, options: HearOptions): Promise<TalkResult> {
  const engine = await openTestEngine(commands, options.tuning);
  const lines = talk.filter((_, at) => at % options.every === 0);
  const clips = [...speak(lines, "rms", 1), ...speak(lines, "ked", 0.9)];
  const heard = await listen(engine, clips, place);
  const errors: string[] = [];
  let answered = 0;
  let changes = 0;
  heard.forEach((events, at) => {
    for (const { text, score, noisy } of events) {
      const judgement = judged(text, score, noisy);
      if (judgement.kind === "ignore") continue;
      answered += 1;
      errors.push(`"${clips[at]?.said}": ${judgement.kind} "${text}" ${score.toFixed(1)}`);
      if (judgement.kind !== "pass") continue;
      const name = JSON.parse(meaningOf(text, commands) ?? "[]")[0];
      if (changing.get(name) === true) changes += 1;
    }
  });
  engine.close();
  const seconds = clips.reduce((sum, { samples }) => sum + samples.length / 16_000 + 1.2, 0);
  return { minutes: seconds / 60, answered, changes, errors };
}
