import { keepCompiled } from "./platform/keep-compiled.ts";

keepCompiled();
const { runLive } = await import("./channels/console/live.ts");
const { writer } = await import("./channels/console/output.ts");
const { runTerminal } = await import("./channels/console/terminal.ts");
const { openBench } = await import("./open-bench.ts");
const { readSettings } = await import("./settings.ts");
const { StoreError } = await import("./store/store-error.ts");

/** Opens the bench and starts the channels. */
try {
  const settings = readSettings();
  const { keeper, notices, close } = await openBench(settings);
  const { stdin, stdout } = process;
  const { who } = settings;
  const write = writer(stdout);
  if (stdin.isTTY && stdout.isTTY) {
    await runTerminal({ keeper, notices, who, input: stdin, output: stdout });
  } else {
    await runLive({ keeper, notices, who, input: stdin, write, json: false });
  }
  await close();
} catch (error) {
  if (!(error instanceof StoreError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
