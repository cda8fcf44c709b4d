import type { Command } from "../../commands/define-command.ts";
import { createBell } from "../../conversation/bell.ts";
import type { BenchKeeper } from "../../conversation/bench-keeper.ts";
import { systemClock } from "../../platform/clock.ts";
import type { Reply } from "../../reply/reply.ts";
import { startDailyLook } from "../../scheduler/daily-look.ts";
import { openEar } from "../../speech/ear/open-ear.ts";
import type { EngineChoice } from "../../speech/engine.ts";
import { comingCues } from "../../speech/mouth/coming-cues.ts";
import { createCueCache } from "../../speech/mouth/cue-cache.ts";
import { openVoice } from "../../speech/mouth/open-voice.ts";
import type { OpusCoder } from "../../speech/mouth/opus.ts";
import { whatToSay } from "../../speech/mouth/what-to-say.ts";
import { namesOf } from "../../speech/own-names.ts";
import { faultReply } from "../console/fault.ts";
import { linesOf } from "../console/lines-of.ts";
import { renderText } from "../console/render.ts";
import { noticeReply } from "../console/script.ts";
import type { Device } from "./devices.ts";
import { openLoudspeaker } from "./loudspeaker.ts";
import { startMicrophone } from "./microphone.ts";
import { createTalk } from "./talk.ts";

export type VoiceChannelParts = {
  readonly keeper: BenchKeeper;
  readonly commands: readonly Command[];
  readonly who: string;
  readonly notices: readonly string[];
  readonly engine: EngineChoice;
  readonly opus: OpusCoder | undefined;
  readonly microphone: Device | undefined;
  readonly speaker: Device | undefined;
  readonly handsFree: boolean;
  readonly input: NodeJS.ReadableStream;
  readonly write: (text: string) => void;
};

/** How loud a new bench speaks. */
export const VOLUME = 0.7;

/**
 * The bench with a microphone and a speaker, and a line for typing beside them: an empty line is
 * the key to talk. Ends when the input has ended and nothing is running.
 */
export async function runVoice(parts: VoiceChannelParts): Promise<void> {
  const { keeper, commands, who, input, write, handsFree } = parts;
  const now = (): number => systemClock.monotonic();
  const note = (line: string): void => write(`${line}\n`);
  const fault = (line: string): void => note(`! ${line}`);

  const loud = () => keeper.record.bench.voice?.volume ?? VOLUME;
  const speaker =
    parts.speaker === undefined
      ? undefined
      : openLoudspeaker({ device: parts.speaker, volume: loud, now, fault });
  const voice = openVoice({ voice: "slt", pace: 1, onFault: fault });
  const sounds = createCueCache(voice, parts.opus);

  const say = async (reply: Reply): Promise<void> => {
    const { mode, voice: set } = keeper.record.bench;
    const spoken = whatToSay(reply, mode, set?.verbosity ?? "short");
    if (spoken === undefined || speaker === undefined) return;
    const { tone, words, cue } = spoken;
    if (tone !== undefined) return speaker.play(sounds.now(tone, words).samples, cue);
    speaker.play((await sounds.get(undefined, words)).samples, false);
  };
  const show = (reply: Reply): void => {
    write(`${renderText(reply, keeper.record.bench.mode)}\n\n`);
    void say(reply);
  };
  /** Cues are made before they are due; the ear is told of new names. */
  const prepare = (): void => {
    ear.names(namesOf(keeper.record.bench));
    const { mode, voice: set } = keeper.record.bench;
    for (const reply of comingCues(keeper.record.bench)) {
      const spoken = whatToSay(reply, mode, set?.verbosity ?? "short");
      if (spoken !== undefined) void sounds.get(spoken.tone, spoken.words);
    }
  };
  const answer = (reply: Reply): void => {
    show(reply);
    prepare();
  };

  const bell = createBell({
    keeper,
    clock: systemClock,
    housekeep: startDailyLook,
    tell: (replies) => {
      for (const reply of replies) show(reply);
      // After the cue has gone out: what comes next is made while there is time.
      if (replies.length > 0) setImmediate(prepare);
    },
    onFault: (error) => show(faultReply(error)),
  });
  const talk = createTalk({
    bell,
    keeper,
    commands,
    who,
    handsFree,
    answer,
    heard: (text) => note(`(heard: ${text})`),
    note,
    faultReply,
    say: (line) => {
      note(line);
      void sounds.get(undefined, line).then(({ samples }) => speaker?.play(samples, false));
    },
    speaking: () => speaker?.speaking() ?? false,
  });
  let greeted = false;
  const ear = openEar({
    engine: parts.engine,
    form: parts.microphone?.form ?? { rate: 16_000, channels: 1 },
    tell: (event) => {
      // It is ready again whenever it was told of new names, or began anew.
      if (event.kind === "ready" && !greeted) note(handsFree ? LISTENING : BY_KEY);
      greeted ||= event.kind === "ready";
      void talk.hear(event);
    },
    now,
  });
  const microphone =
    parts.microphone === undefined
      ? undefined
      : startMicrophone({
          device: parts.microphone,
          now,
          sound: (samples, at) => ear.feed(samples, at),
          fault,
        });
  if (microphone === undefined) fault(NO_MICROPHONE);
  if (speaker === undefined) fault(NO_SPEAKER);
  for (const notice of parts.notices) show(noticeReply(notice));
  prepare();

  for await (const line of linesOf(input)) {
    const text = line.trim();
    if (text === "quit") break;
    if (text === "") {
      speaker?.hush();
      ear.press();
    } else answer(await bell.hear(text, who).catch(faultReply));
  }
  await bell.quiet();
  bell.stop();
  microphone?.stop();
  speaker?.stop();
  await Promise.all([ear.close(), voice.close()]);
}

const LISTENING = "Listening. Questions need no call; what changes something does: README, Voice.";
const BY_KEY = "Press Enter on an empty line, then speak.";
const NO_MICROPHONE = "No microphone: I found no pw-record, parec or arecord. Type instead.";
const NO_SPEAKER = "No loudspeaker: I found no pw-play, pacat or aplay. Cues come as text.";
