import { freemem } from "node:os";
import type { Command } from "../../commands/define-command.ts";
import { systemClock } from "../../platform/clock.ts";
import type { Reply } from "../../reply/reply.ts";
import { openEar } from "../../speech/ear/open-ear.ts";
import type { EngineChoice } from "../../speech/engine.ts";
import { comingCues } from "../../speech/mouth/coming-cues.ts";
import { createCueCache } from "../../speech/mouth/cue-cache.ts";
import { openVoice } from "../../speech/mouth/open-voice.ts";
import { openOpus } from "../../speech/mouth/opus.ts";
import { RATE } from "../../speech/mouth/tones.ts";
import { whatToSay } from "../../speech/mouth/what-to-say.ts";
import { namesOf } from "../../speech/own-names.ts";
import { faultReply } from "../console/fault.ts";
import type { Attend, Attendant, BenchCall } from "../discord/voice/ports.ts";
import { FOR_AN_EAR, openCallEars } from "./ears-of-a-call.ts";
import { VOLUME } from "./run-voice.ts";
import { createTalk, type Talk } from "./talk.ts";

export type AttendParts = {
  readonly commands: readonly Command[];
  readonly engine: EngineChoice;
  /** Begins an ear; another one in tests. */
  readonly begin?: typeof openEar;
};

type Speaker = Parameters<Attendant["ears"]["hear"]>[0];

/** What was said last may still be on its way to the speaker's room for so long, ms. */
const ECHO = 400;
/** How often it is looked whether the bench was changed in another way, ms. */
const LOOK = 1000;
const FORM = { rate: RATE, channels: 1 };

/** Listens and speaks in calls: the same trust, the same words as with a microphone. */
export const attendCalls =
  (parts: AttendParts): Attend =>
  (call) =>
    attend(call, parts);

function attend(call: BenchCall, { commands, engine, begin = openEar }: AttendParts): Attendant {
  const { mouth } = call;
  const now = (): number => systemClock.monotonic();
  /** Each is written once: a call is no place to be told the same over and over. */
  const written = new Set<string>();
  const write = (line: string): void => {
    if (written.has(line)) return;
    written.add(line);
    call.complain(line);
  };
  const settings = () => call.record().bench.voice;
  const voice = openVoice({ voice: "slt", pace: 1, onFault: write });
  const opus = openOpus();
  const sounds = createCueCache(voice, opus, () => settings()?.volume ?? VOLUME);
  /** When what was said last has been heard. */
  let spokenUntil = 0;

  const play = (samples: Int16Array): void => {
    if (samples.length === 0) return;
    spokenUntil = Math.max(now(), spokenUntil) + samples.length / (RATE / 1000);
    mouth.say({ pcm: samples, rate: RATE });
  };
  const say = async (reply: Reply): Promise<void> => {
    const spoken = whatToSay(reply, call.record().bench.mode, settings()?.verbosity ?? "short");
    if (spoken === undefined) return;
    const { tone, words } = spoken;
    if (tone === undefined) return play((await sounds.get(undefined, words)).samples);
    const ready = sounds.now(tone, words);
    spokenUntil = now() + ready.samples.length / (RATE / 1000);
    mouth.cue({ opus: ready.opus ?? [] });
  };
  const sayLine = async (line: string): Promise<void> => {
    if (call.record().bench.mode === "dark") return;
    const { samples } = await sounds.get(undefined, line);
    // A question that cannot be heard has to be read.
    if (samples.length === 0) call.complain(line);
    else play(samples);
  };

  const ears = openCallEars({
    open: (tell) => begin({ engine, form: FORM, tell, now }),
    tell: (person, event) => void talks.get(person)?.hear(event),
    onFault: write,
    // Of a service's limit as of the machine: the limit may be higher than what there is.
    isRoom: () => Math.min(process.availableMemory(), freemem()) > FOR_AN_EAR,
    now,
  });
  let seen: unknown;
  /** Cues are made before they are due; the ears are told of new names. */
  const prepare = (): void => {
    const { bench } = call.record();
    if (bench === seen) return;
    seen = bench;
    ears.names(namesOf(bench));
    for (const reply of comingCues(bench)) {
      const spoken = whatToSay(reply, bench.mode, settings()?.verbosity ?? "short");
      if (spoken !== undefined) void sounds.get(spoken.tone, spoken.words);
    }
  };
  prepare();
  const look = setInterval(prepare, LOOK);
  look.unref();

  const talks = new Map<string, Talk>();
  const talkOf = (speaker: Speaker): Talk =>
    createTalk({
      bell: {
        now: call.now,
        // A voice may be anybody's: it never does what only an owner may.
        take: (said) => call.ask({ ...speaker, standing: "member" }, said),
      },
      keeper: {
        get record() {
          return call.record();
        },
      },
      commands,
      who: speaker.name,
      handsFree: true,
      answer: (reply) => {
        void say(reply);
        prepare();
      },
      say: (line) => void sayLine(line),
      // Words and answer are written by the call.
      heard: () => undefined,
      note: write,
      speaking: () => now() < spokenUntil + ECHO,
      faultReply,
    });

  return {
    ears: {
      hear(speaker, pcm) {
        if (!talks.has(speaker.id)) talks.set(speaker.id, talkOf(speaker));
        ears.hear(speaker.id, pcm);
      },
      end: ({ id }) => ears.end(id),
    },
    told(replies) {
      for (const reply of replies) void say(reply);
      // After the cue has gone out: what comes next is made while there is time.
      setImmediate(prepare);
    },
    close() {
      clearInterval(look);
      void ears.close();
      // Words that are still being made are encoded before the coder goes.
      void voice.close().then(() => setImmediate(opus.close));
    },
  };
}
