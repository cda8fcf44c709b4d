import { expect, test } from "vitest";
import { openFileStore } from "../../src/store/file-store.ts";
import { startChild, withFolder } from "../support/child.ts";
import { seeded } from "../support/seeded.ts";
import { isWhole, tallySchema } from "../support/tally.ts";

const ROUNDS = 15;

test("killed at any moment, every acknowledged commit is there, and a restart is let in at once", async () => {
  const chance = seeded(2026);
  await withFolder(async (directory) => {
    let acknowledged = 0;
    for (let round = 0; round < ROUNDS; round += 1) {
      const target = Math.floor(chance() * 60);
      const child = startChild("commit-in-a-loop.ts", directory);
      await child.until((lines) => lines.length > target);
      child.kill("SIGKILL");
      await child.ended();
      expect(child.lines[0], `round ${round}`).toBe("open");
      const printed = child.lines.slice(1).map(Number);
      if (printed.length > 0) expect(printed[0]).toBeGreaterThan(acknowledged);
      acknowledged = Math.max(acknowledged, ...printed);

      const store = await openFileStore({ directory, schema: tallySchema });
      const { value, notices } = await store.load("home");
      await store.close();
      expect(notices).toEqual([]);
      const count = value?.count ?? 0;
      expect(count, `round ${round}`).toBeGreaterThanOrEqual(acknowledged);
      expect(count, `round ${round}`).toBeLessThanOrEqual(acknowledged + 1);
      if (value !== undefined) expect(isWhole(value)).toBe(true);
      acknowledged = count;
    }
    expect(acknowledged).toBeGreaterThan(ROUNDS * 10);
  });
}, 60_000);
