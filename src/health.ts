import { readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { writer } from "./channels/console/output.ts";
import { HEARTBEAT } from "./health/heartbeat.ts";
import { watch } from "./health/watch.ts";
import { readSettings, SettingsError } from "./settings.ts";

/** Says whether the program runs on the data folder. Exit code 0 when it does, else 1. */
const write = writer(process.stdout);
try {
  const { data } = readSettings();
  const path = join(data, HEARTBEAT);
  const { well, says } = await watch({
    look: async () => ({
      text: await readFile(path, "utf8").catch(() => undefined),
      touched: await stat(path).then(
        ({ mtimeMs }) => mtimeMs,
        () => 0,
      ),
    }),
    now: () => Date.now(),
    pause: (ms) => pause(ms),
  });
  write(`${says}\n`);
  if (!well) process.exitCode = 1;
} catch (error) {
  if (!(error instanceof SettingsError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
