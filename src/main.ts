import { runLive } from "./channels/console/live.ts";
import { writer } from "./channels/console/output.ts";
import { picturesIn } from "./channels/console/pictures.ts";
import { runTerminal } from "./channels/console/terminal.ts";
import { type BenchParts, createBenches } from "./conversation/benches.ts";
import { HOME, openBench } from "./open-bench.ts";
import { systemClock } from "./platform/clock.ts";
import { startDailyLook } from "./scheduler/daily-look.ts";
import { readDiscordSettings, readSettings, SettingsError } from "./settings.ts";
import { StoreError } from "./store/store-error.ts";

/** After all is kept, what is still open may take so long, ms. */
const LAST_WORDS = 1000;

/** Opens the benches and starts the channels. */
try {
  const settings = readSettings();
  const discordSettings = readDiscordSettings();
  if (!discordSettings.ok) throw new SettingsError(discordSettings.error);
  const house = await openBench(settings);
  const { stdin, stdout } = process;
  const clock = systemClock;
  const benches = createBenches({ clock, housekeep: startDailyLook });
  const { keeper, notices } = house;
  const shared = {
    keeper,
    notices,
    who: settings.who,
    pictures: picturesIn(settings.data),
    input: stdin,
    join: (parts: BenchParts) => benches.join(HOME, parts),
  };
  const runConsole = async (): Promise<void> => {
    if (stdin.isTTY && stdout.isTTY) await runTerminal({ ...shared, output: stdout });
    else await runLive({ ...shared, write: writer(stdout), json: false });
  };
  if (discordSettings.value === undefined) await runConsole();
  else {
    // Loaded only here: without a token the program starts as fast as ever.
    const { runWithDiscord } = await import("./channels/discord/run-with-discord.ts");
    const parts = { ...house, ...settings, settings: discordSettings.value, benches, clock };
    process.exitCode = await runWithDiscord(parts, runConsole, stdin.isTTY && stdout.isTTY);
    // Whoever holds the other end of the input, or of a socket that was just being opened, keeps
    // the process no longer.
    stdin.destroy();
    setTimeout(() => process.exit(), LAST_WORDS).unref();
  }
  benches.stop();
  await house.close();
} catch (error) {
  if (!(error instanceof StoreError || error instanceof SettingsError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
