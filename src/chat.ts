import { runLive } from "./channels/console/live.ts";
import { readOptions, usage } from "./channels/console/options.ts";
import { writer } from "./channels/console/output.ts";
import { picturesIn } from "./channels/console/pictures.ts";
import { printable } from "./channels/console/printable.ts";
import { runSimulated } from "./channels/console/script.ts";
import { openBench } from "./open-bench.ts";
import { readSettings, SettingsError } from "./settings.ts";
import { StoreError } from "./store/store-error.ts";

/** Script mode: one message a line in, replies out. See the README. */
const write = writer(process.stdout);
const options = readOptions(process.argv.slice(2), Temporal.Now.timeZoneId());
if (!options.ok) {
  process.stderr.write(`${options.error}\n\n${usage}`);
  process.exitCode = 2;
} else if (options.value.help) {
  write(usage);
} else {
  try {
    const settings = readSettings();
    const { data, json, simulate, zone } = options.value;
    const folder = data ?? settings.data;
    const { keeper, notices, close } = await openBench({
      data: folder,
      zone: zone ?? settings.zone,
      moved: zone !== undefined,
    });
    const pictures = picturesIn(folder);
    const { stdin: input } = process;
    const parts = { keeper, input, write, json, who: settings.who, notices, pictures };
    if (simulate === undefined) await runLive(parts);
    else await runSimulated(parts, simulate);
    await close();
  } catch (error) {
    if (!(error instanceof StoreError || error instanceof SettingsError)) throw error;
    process.stderr.write(`${printable(error.message)}\n`);
    process.exitCode = 1;
  }
}
