import { readDiscordSettings, trySettings } from "./settings.ts";

/** Says what keeps the Discord channel from working. Exit code 0 when nothing does, else 1. */
const own = trySettings();
const settings = readDiscordSettings();
if (!own.ok) mendSettings(own.error);
else if (!settings.ok) mendSettings(settings.error);
else if (settings.value === undefined) {
  process.stdout.write(
    "MEND  token  DISCORD_TOKEN is not set, in the environment or in .env. The terminal works without it; for Discord see the README.\n",
  );
  process.exitCode = 1;
} else {
  const { examine } = await import("./channels/discord/doctor/examine.ts");
  const { showFindings } = await import("./channels/discord/doctor/finding.ts");
  const findings = await examine(settings.value, own.value.data);
  process.stdout.write(showFindings(findings));
  if (findings.some(({ kind }) => kind === "mend")) process.exitCode = 1;
}

function mendSettings(error: string): void {
  process.stdout.write(`MEND  settings  ${error}\n`);
  process.exitCode = 1;
}
