import { runLive } from "./channels/console/live.ts";
import { writer } from "./channels/console/output.ts";
import { picturesIn } from "./channels/console/pictures.ts";
import { runTerminal } from "./channels/console/terminal.ts";
import { openBench } from "./open-bench.ts";
import { readSettings } from "./settings.ts";
import { StoreError } from "./store/store-error.ts";

/** Opens the bench and starts the channels. */
try {
  const settings = readSettings();
  const { keeper, notices, close } = await openBench(settings);
  const { stdin, stdout } = process;
  const { who } = settings;
  const write = writer(stdout);
  const pictures = picturesIn(settings.data);
  if (stdin.isTTY && stdout.isTTY) {
    await runTerminal({ keeper, notices, who, pictures, input: stdin, output: stdout });
  } else {
    await runLive({ keeper, notices, who, pictures, input: stdin, write, json: false });
  }
  await close();
} catch (error) {
  if (!(error instanceof StoreError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
