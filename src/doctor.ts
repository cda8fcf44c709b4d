import { writer } from "./channels/console/output.ts";
import { showFindings } from "./channels/discord/doctor/finding.ts";
import { readDiscordSettings, trySettings } from "./settings.ts";
import { checkSpeech } from "./speech/check-speech.ts";
import { examineSpeech } from "./speech/examine-speech.ts";

/** Says what keeps voice and the Discord channel from working. Exit code 0 when nothing does, else 1. */
const write = writer(process.stdout);
const own = trySettings();
const settings = readDiscordSettings();
if (!own.ok) mendSettings(own.error);
else if (!settings.ok) mendSettings(settings.error);
else if (settings.value === undefined) {
  const token = {
    kind: "mend",
    what: "token",
    says: "DISCORD_TOKEN is not set, in the environment or in .env. The terminal works without it; for Discord see the README.",
  } as const;
  write(showFindings([examineSpeech(checkSpeech(own.value.voice.model)), token]));
  process.exitCode = 1;
} else {
  const { examine } = await import("./channels/discord/doctor/examine.ts");
  const speech = examineSpeech(checkSpeech(own.value.voice.model));
  const findings = [speech, ...(await examine(settings.value, own.value.data))];
  write(showFindings(findings));
  if (findings.some(({ kind }) => kind === "mend")) process.exitCode = 1;
}

function mendSettings(error: string): void {
  write(`MEND  settings  ${error}\n`);
  process.exitCode = 1;
}
