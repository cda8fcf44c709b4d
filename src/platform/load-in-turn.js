/**
 * Imported before the program where a start must be quick (see the scripts of package.json): loads
 * what every start needs file by file. `import` first finds the whole graph of files, with promises
 * and lists for each; of many small files that took half of the start and 15 MB more. What the
 * program then imports is there already.
 */
import "./keep-compiled.js";
import { createRequire, registerHooks } from "node:module";

const require = createRequire(import.meta.url);
const ours = new URL("../../", import.meta.url).href;

/** Our own files say exactly where they are: nothing need be looked for on the disk. */
const hooks = registerHooks({
  resolve(specifier, context, next) {
    const { parentURL = "" } = context;
    // The checks' words in sixty languages, which nobody is shown: one will do.
    if (specifier === "../locales/index.js" && parentURL.includes("/zod/")) {
      return next("../locales/en.js", context);
    }
    if (!parentURL.startsWith(ours) || !/^\..*\.ts$/.test(specifier)) {
      return next(specifier, context);
    }
    const url = new URL(specifier, parentURL).href;
    return { url, format: "module-typescript", shortCircuit: true };
  },
});
require("../open-bench.ts");
require("../channels/console/live.ts");
for (const file of require("../commands/registry.ts").commandFiles()) require(file);
hooks.deregister();
