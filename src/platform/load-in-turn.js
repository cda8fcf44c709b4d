/**
 * Imported before the program where a start must be quick (see the scripts of package.json): loads
 * what every start needs file by file. `import` first finds the whole graph of files, with promises
 * and lists for each; of many small files that took half of the start and 15 MB more. What the
 * program then imports is there already.
 */
import "./keep-compiled.js";
import { readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const require = createRequire(import.meta.url);
const commands = join(import.meta.dirname, "../../commands");

require("../open-bench.ts");
require("../channels/console/live.ts");
for (const file of readdirSync(commands).sort()) {
  if (file.endsWith(".ts") && !file.endsWith(".test.ts")) require(join(commands, file));
}
