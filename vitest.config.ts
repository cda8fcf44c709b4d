import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "commands/**/*.test.ts", "test/**/*.test.ts"],
    isolate: false,
    // A busy machine fails no test; what waits for a process is bounded by itself.
    testTimeout: 60_000,
    reporters: ["default", "./test/support/closing-line.ts"],
    coverage: { provider: "v8", include: ["src/**", "commands/**"] },
  },
});
