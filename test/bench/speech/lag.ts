import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openLoudspeaker } from "../../../src/channels/voice/loudspeaker.ts";
import { createTalk } from "../../../src/channels/voice/talk.ts";
import { loadCommands } from "../../../src/commands/registry.ts";
import { createBell } from "../../../src/conversation/bell.ts";
import { BenchKeeper } from "../../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../../src/conversation/record.ts";
import { systemClock } from "../../../src/platform/clock.ts";
import { refuse } from "../../../src/reply/reply.ts";
import { DEBIAN_MODEL } from "../../../src/speech/debian-model.ts";
import { openEar } from "../../../src/speech/ear/open-ear.ts";
import { createCueCache } from "../../../src/speech/mouth/cue-cache.ts";
import { openVoice } from "../../../src/speech/mouth/open-voice.ts";
import { toneOf } from "../../../src/speech/mouth/tones.ts";
import { namesOf } from "../../../src/speech/own-names.ts";
import { createMemoryStore } from "../../../src/store/memory-store.ts";
import { placed } from "../../speech/listen.ts";
import { openSpeaker } from "../../speech/voices.ts";
import { percentile } from "../percentile.ts";

export type Lag = { readonly answered: number; readonly p50: number; readonly p95: number };

const questions = [
  "what time is it",
  "how much time is left",
  "where are we",
  "how long is the blix",
  "what temperature should the developer be",
  "settings",
  "reminders",
  "help",
  "recipe for a quart of stabilizer",
  "what can i say",
];

const form = { rate: 16_000, channels: 1 };
const now = (): number => systemClock.monotonic();
const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** From the last sound of a question to the first sample of its answer, in real time, ms. */
export async function benchAnswerLag(): Promise<Lag> {
  const commands = await loadCommands();
  const store = createMemoryStore<BenchRecord>();
  await store.load("lag");
  const { keeper } = await BenchKeeper.open("lag", { zone: "Europe/Lisbon" }, store, commands);
  const bell = createBell({
    keeper,
    clock: systemClock,
    tell: () => undefined,
    onFault: () => undefined,
  });
  const voice = openVoice({ voice: "slt", pace: 1, onFault: () => undefined });
  const sounds = createCueCache(voice, undefined);
  await sounds.get(undefined, "ready");
  const lags: number[] = [];
  let spokenUntil = 0;
  const answered = async (words: string): Promise<void> => {
    const { samples } = await sounds.get(undefined, words);
    if (samples.length > 0) lags.push(now() - spokenUntil);
  };
  const talk = createTalk({
    bell,
    keeper,
    commands,
    who: "you",
    handsFree: true,
    answer: ({ say }) => void answered(say),
    say: (line) => void answered(line),
    heard: () => undefined,
    note: () => undefined,
    speaking: () => false,
    faultReply: (error) => refuse("fault", String(error)),
  });
  const ready = Promise.withResolvers<void>();
  const ear = openEar({
    engine: { kind: "sphinx", model: DEBIAN_MODEL },
    form,
    now,
    tell: (event) => {
      if (event.kind === "ready") ready.resolve();
      void talk.hear(event);
    },
  });
  ear.names(namesOf(keeper.record.bench));
  await ready.promise;
  for (const clip of openSpeaker()(questions, "rms", 1)) {
    const sound = Int16Array.from(placed(clip.samples, {}, 1));
    const last = sound.findLastIndex((sample) => Math.abs(sample) > 300);
    const start = now();
    spokenUntil = start + last / 16;
    for (let at = 0; at < sound.length + 16_000; at += 320) {
      const due = start + (at + 320) / 16;
      if (due > now()) await pause(due - now());
      ear.feed(at < sound.length ? sound.slice(at, at + 320) : new Int16Array(320), now());
    }
  }
  bell.stop();
  await Promise.all([ear.close(), voice.close()]);
  return { answered: lags.length, p50: percentile(lags, 50), p95: percentile(lags, 95) };
}

/** From a cue's instant to its tone at the player, ms. */
export async function benchToneLag(cues = 50): Promise<Omit<Lag, "answered">> {
  const folder = mkdtempSync(join(tmpdir(), "wetside-tones-"));
  const file = join(folder, "sounds");
  writeFileSync(file, "");
  const player = new URL("../../speech/stand-ins/player.ts", import.meta.url).pathname;
  const speaker = openLoudspeaker({
    device: { command: [process.execPath, player, file], form },
    volume: () => 1,
    now,
    fault: () => undefined,
  });
  await pause(500);
  const due: number[] = [];
  for (let cue = 0; cue < cues; cue += 1) {
    await pause(260 + (cue % 7) * 9);
    due.push(performance.timeOrigin + performance.now());
    speaker.play(toneOf("beat"), true);
  }
  await pause(300);
  speaker.stop();
  const sounded = readFileSync(file, "utf8").split("\n").filter(Boolean).map(Number);
  rmSync(folder, { recursive: true });
  const lags = due.map((at) => (sounded.find((one) => one >= at) ?? Number.NaN) - at);
  return { p50: percentile(lags, 50), p95: percentile(lags, 95) };
}
