import { parseArgs } from "node:util";
import { writer } from "./channels/console/output.ts";
import { engineOf } from "./channels/voice/attend-lazily.ts";
import { isInstalled, microphone, speaker } from "./channels/voice/devices.ts";
import { runVoice } from "./channels/voice/run-voice.ts";
import { loadCommands } from "./commands/registry.ts";
import { openBench } from "./open-bench.ts";
import { readSettings } from "./settings.ts";
import { checkSpeech, speechCommands } from "./speech/check-speech.ts";
import { openOpus } from "./speech/mouth/opus.ts";
import { StoreError } from "./store/store-error.ts";

/** npm run voice: the bench with a microphone and a speaker. See the README. */
try {
  const { values } = parseArgs({ options: { "push-to-talk": { type: "boolean" } } });
  const settings = readSettings();
  const { voice } = settings;
  const engine = engineOf(voice);
  const parts = checkSpeech(voice.model);
  const write = writer(process.stdout);
  for (const { part, there, without } of parts) {
    if (!there) write(`missing: ${part}; ${without}\n`);
  }
  for (const command of speechCommands(parts)) write(`get it with: ${command}\n`);
  const opus = parts.find(({ part }) => part.startsWith("Opus"))?.there === true;
  const { keeper, notices, close } = await openBench(settings);
  await runVoice({
    keeper,
    commands: await loadCommands(),
    who: settings.who,
    notices,
    engine,
    opus: opus ? openOpus() : undefined,
    microphone: microphone(voice.microphone, isInstalled),
    speaker: speaker(voice.speaker, isInstalled),
    handsFree: values["push-to-talk"] !== true,
    input: process.stdin,
    write,
  });
  await close();
} catch (error) {
  if (!(error instanceof StoreError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
