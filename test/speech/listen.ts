import type { Command } from "../../src/commands/define-command.ts";
import { openFrontEnd } from "../../src/speech/audio/front-end.ts";
import { DEBIAN_MODEL } from "../../src/speech/debian-model.ts";
import { createListener, type EarEvent } from "../../src/speech/ear/listener.ts";
import type { Engine } from "../../src/speech/engine.ts";
import { openSphinx, type SphinxTuning } from "../../src/speech/engines/sphinx.ts";
import { grammarOf } from "../../src/speech/grammar/bench-grammar.ts";
import { namesOf } from "../../src/speech/own-names.ts";
import { WAKE_WORD } from "../../src/speech/wake-word.ts";
import { seeded } from "../support/seeded.ts";
import { busyBench } from "../support/understand.ts";
import { type Noise, noise, speechLevel } from "./noises.ts";

/** Where a clip is heard: in quiet, or in noise so many dB below the speech. */
export type Place = { readonly noise?: Noise; readonly db?: number };

export type Heard = Extract<EarEvent, { kind: "heard" }>;

/** The recogniser with the grammar of the busy bench. */
export async function openTestEngine(
  commands: readonly Command[],
  tuning?: SphinxTuning,
): Promise<Engine> {
  const engine = openSphinx(DEBIAN_MODEL, tuning);
  const net = grammarOf(commands, namesOf(busyBench.bench), WAKE_WORD);
  await engine.prepare({ net, words: new Set(net.next.flatMap((row) => [...row.keys()])) });
  return engine;
}

/** Pieces as a sound card gives them. */
const PIECE = 320;
/** Quiet, or noise alone, before and after each clip, samples. */
const BEFORE = 8000;
const AFTER = 11_200;

/** Clips one after the other as one stream: what the ear makes of each. */
export async function listen(
  engine: Engine,
  clips: readonly { readonly samples: Int16Array }[],
  place: Place,
): Promise<readonly (readonly Heard[])[]> {
  let events: Heard[] = [];
  const frontEnd = await openFrontEnd();
  const listener = createListener(frontEnd, engine, (event) => {
    if (event.kind === "heard") events.push(event);
  });
  const all: Heard[][] = [];
  for (const [index, { samples }] of clips.entries()) {
    const sound = placed(samples, place, index + 1);
    events = [];
    for (let at = 0; at < sound.length; at += PIECE) {
      await listener.feed(sound.slice(at, at + PIECE), (at + PIECE) / 16);
    }
    all.push(events);
  }
  frontEnd.close();
  return all;
}

/** A clip with room around it, in its place. A quiet room is not quite silent either. */
export function placed(
  samples: Int16Array,
  { noise: kind, db = 60 }: Place,
  seed: number,
): Float32Array {
  const sound = new Float32Array(BEFORE + samples.length + AFTER);
  sound.set(samples, BEFORE);
  const chance = seeded(seed);
  const around = kind === undefined ? undefined : noise(kind, sound.length, seed);
  const gain = speechLevel(samples) * 10 ** (-db / 20);
  return sound.map((sample, at) => {
    const added = around === undefined ? (chance() - 0.5) * 6 : gain * (around[at] ?? 0);
    return Math.max(-32_768, Math.min(32_767, sample + added));
  });
}
