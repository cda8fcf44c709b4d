import { existsSync } from "node:fs";
import { configDefaults, defineConfig } from "vitest/config";
import { missingPackages } from "./src/channels/discord/voice/packages.ts";

/** What cannot run without the optional packages of the voice; `npm run add-voice` brings them. */
const voice = [
  "test/discord/voice/**",
  "test/discord/voice-stand-in/**",
  "test/speech/real/discord-call.test.ts",
  "src/channels/voice/attend-call.test.ts",
  "src/channels/discord/voice/{mouth,packages}.test.ts",
];
const missing = missingPackages();
if (missing.length > 0) {
  process.stderr.write(
    `Without ${missing.join(", ")}: the tests of calls are left out. npm run add-voice\n`,
  );
}

/** With Debian's speech packages the tests of the real recogniser belong to the suite; .ci/run has them. */
const speech = existsSync("/usr/share/pocketsphinx/model/en-us/en-us/mdef");

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "commands/**/*.test.ts", "test/**/*.test.ts"],
    exclude: [
      ...configDefaults.exclude,
      ...(speech ? [] : ["test/speech/real/**"]),
      ...(missing.length > 0 ? voice : []),
    ],
    isolate: false,
    // Much of the time goes into waiting for processes and sockets: more at a time than there are cores.
    maxWorkers: 3,
    // A busy machine fails no test; what waits for a process is bounded by itself.
    testTimeout: 60_000,
    reporters: ["default", "./test/support/closing-line.ts"],
    coverage: { provider: "v8", include: ["src/**", "commands/**"] },
  },
});
