import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "commands/**/*.test.ts", "test/**/*.test.ts"],
    isolate: false,
    reporters: ["default", "./test/support/closing-line.ts"],
    coverage: { provider: "v8", include: ["src/**", "commands/**"] },
  },
});
