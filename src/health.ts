import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { HEARTBEAT } from "./health/heartbeat.ts";
import { judge } from "./health/judge.ts";
import { readSettings, SettingsError } from "./settings.ts";

/** Says whether the program runs on the data folder. Exit code 0 when it does, else 1. */
try {
  const { data } = readSettings();
  const text = await readFile(join(data, HEARTBEAT), "utf8").catch(() => undefined);
  const { well, says } = judge(text, Date.now());
  process.stdout.write(`${says}\n`);
  if (!well) process.exitCode = 1;
} catch (error) {
  if (!(error instanceof SettingsError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
