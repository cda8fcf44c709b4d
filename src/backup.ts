import { backUp } from "./backup/back-up.ts";
import { writer } from "./channels/console/output.ts";
import { readSettings, SettingsError } from "./settings.ts";
import { StoreError } from "./store/store-error.ts";

/**
 * Copies the data folder while the program may be running. Exit code 0 when all is copied, 1 when
 * it is not or something in it is damaged, 2 for a wrong word.
 */
const write = writer(process.stdout);
const [into, ...more] = process.argv.slice(2);
if (into === undefined || into.startsWith("-") || more.length > 0) {
  process.stderr.write("Say where: npm run backup -- DIR, a folder that is not there yet.\n");
  process.exitCode = 2;
} else {
  try {
    const { benches, files, damaged } = await backUp(readSettings().data, into);
    write(
      `Backed up: ${benches} ${benches === 1 ? "bench" : "benches"}, ${files} files. It is a data folder itself: to go back, stop Wetside and put it in the place of the old one.\n`,
    );
    for (const bench of damaged) {
      write(`The bench in ${bench} is damaged; it was copied as it is.\n`);
    }
    if (damaged.length > 0) process.exitCode = 1;
  } catch (error) {
    if (!(error instanceof StoreError || error instanceof SettingsError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
