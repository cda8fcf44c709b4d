import type { Reporter, TestModule } from "vitest/node";

/** Ends a test run with one plain line, `N passed, N failed`, for whoever reads the log last. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    let passed = 0;
    let failed = unhandledErrors.length;
    let skipped = 0;
    for (const module of modules) {
      let ran = 0;
      for (const test of module.children.allTests()) {
        ran += 1;
        const state = test.result().state;
        if (state === "passed") passed += 1;
        else if (state === "failed") failed += 1;
        else skipped += 1;
      }
      if (ran === 0 && module.state() === "failed") failed += 1;
    }
    const tail = skipped > 0 ? `, ${skipped} skipped` : "";
    process.stdout.write(`\n${passed} passed, ${failed} failed${tail}\n`);
  }
}
