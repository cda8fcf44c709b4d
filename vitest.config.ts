import { existsSync } from "node:fs";
import { defineConfig } from "vitest/config";

/** With Debian's speech packages the tests of the real recogniser belong to the suite; .ci/run has them. */
const speech = existsSync("/usr/share/pocketsphinx/model/en-us/en-us/mdef");

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "commands/**/*.test.ts", "test/**/*.test.ts"],
    exclude: speech ? [] : ["test/speech/real/**"],
    isolate: false,
    // A busy machine fails no test; what waits for a process is bounded by itself.
    testTimeout: 60_000,
    reporters: ["default", "./test/support/closing-line.ts"],
    coverage: { provider: "v8", include: ["src/**", "commands/**"] },
  },
});
