import { resolve } from "node:path";
import { runLive } from "./channels/console/live.ts";
import { writer } from "./channels/console/output.ts";
import { picturesIn } from "./channels/console/pictures.ts";
import { runTerminal } from "./channels/console/terminal.ts";
import { type BenchParts, createBenches } from "./conversation/benches.ts";
import { startHeartbeat } from "./health/heartbeat.ts";
import { createLog } from "./log/create-log.ts";
import { HOME, openBench } from "./open-bench.ts";
import { systemClock } from "./platform/clock.ts";
import { faultWords } from "./platform/fault.ts";
import { listenForStop } from "./platform/stop-signals.ts";
import { startDailyLook } from "./scheduler/daily-look.ts";
import { readDiscordSettings, readSettings, SettingsError } from "./settings.ts";
import { StoreError } from "./store/store-error.ts";

/** Leaving takes no longer than this, ms. */
const PATIENCE = 10_000;
/** What then still keeps the process from ending is cut off after this, ms. */
const LAST = 500;

/** Opens the benches and starts the channels. */
const stop = listenForStop({
  on: (name, heard) => void process.on(name, heard),
  off: (name, heard) => void process.off(name, heard),
  end: (code) => process.exit(code),
  patience: PATIENCE,
});
let log = createLog({ setting: "info", hidden: [], ...stderr() });
process.on("uncaughtException", (error) => void fail(error).then(() => process.exit(1)));
try {
  const settings = readSettings();
  const discordSettings = readDiscordSettings();
  if (!discordSettings.ok) throw new SettingsError(discordSettings.error);
  const token = discordSettings.value?.token.reveal() ?? "";
  log = createLog({
    setting: settings.log,
    hidden: [
      { text: token, as: "[token]" },
      { text: resolve(settings.data), as: "the data folder" },
    ],
    ...stderr(),
  });
  const house = await openBench(settings);
  const { stdin, stdout } = process;
  const clock = systemClock;
  const benches = createBenches({ clock, housekeep: startDailyLook });
  const { keeper, notices } = house;
  const heart = startHeartbeat(settings.data, (error) =>
    log("warn", `The heartbeat cannot be written: ${faultWords(error)}.`),
  );
  stop.signal.addEventListener("abort", () => log("info", "Asked to leave."), { once: true });
  const shared = {
    keeper,
    notices,
    who: settings.who,
    pictures: picturesIn(settings.data),
    input: stdin,
    stop: stop.signal,
    join: (parts: BenchParts) => benches.join(HOME, parts),
  };
  const runConsole = async (): Promise<void> => {
    if (stdin.isTTY && stdout.isTTY) await runTerminal({ ...shared, output: stdout });
    else await runLive({ ...shared, write: writer(stdout, rethrow), json: false });
  };
  if (discordSettings.value === undefined) await runConsole();
  else {
    // Loaded only here: without a token the program starts as fast as ever.
    const { attendLazily } = await import("./channels/voice/attend-lazily.ts");
    const { runWithDiscord } = await import("./channels/discord/run-with-discord.ts");
    const { signal } = stop;
    const attend = attendLazily(settings.voice, house.commands);
    const own = { settings: discordSettings.value, benches, clock, log, attend, stop: signal };
    const parts = { ...house, ...settings, ...own };
    process.exitCode = await runWithDiscord(parts, runConsole, stdin.isTTY && stdout.isTTY);
    // Whoever holds the other end of the input, or of a socket that was just being opened, keeps
    // the process no longer.
    stdin.destroy();
  }
  benches.stop();
  await house.close();
  await heart.stop();
} catch (error) {
  await fail(error);
}
await log.flush();
stop.off();
// All is kept and said; what a lost line to Discord still waits for holds nobody up.
setTimeout(() => process.exit(), LAST).unref();

/** Told like any fault that ends the program. */
function rethrow(error: Error): never {
  throw error;
}

function stderr() {
  const { stderr: to } = process;
  return { isTerminal: to.isTTY === true, write: (text: string) => void to.write(text) };
}

/** What is told of a fault that ends the program: never a path, a token or what somebody said. */
async function fail(error: unknown): Promise<void> {
  const told = error instanceof StoreError || error instanceof SettingsError;
  log("error", told ? error.message : `I must stop: ${faultWords(error)}.`);
  if (!told && error instanceof Error) log("debug", error.stack ?? error.message);
  await log.flush();
  process.exitCode = 1;
}
