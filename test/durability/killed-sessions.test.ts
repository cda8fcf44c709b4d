import { expect, test } from "vitest";
import { killRewrites } from "../support/kill-rewrites.ts";
import { killSessions } from "../support/kill-sessions.ts";

test("killed at seeded moments, a session ends as if nothing had happened", async () => {
  const figures = await killSessions(8, 2026);
  expect(figures.kills).toBe(8);
  expect(figures.sessions).toBeGreaterThan(0);
}, 120_000);

test("killed while it is restored and spoken on, a bench with a long past is the old one or the new", async () => {
  const { kills, old, restored } = await killRewrites(4, 2026);
  expect([kills, old + restored]).toEqual([4, 4]);
}, 120_000);
