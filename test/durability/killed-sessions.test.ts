import { expect, test } from "vitest";
import { killSessions } from "../support/kill-sessions.ts";

test("killed at seeded moments, a session ends as if nothing had happened", async () => {
  const figures = await killSessions(8, 2026);
  expect(figures.kills).toBe(8);
  expect(figures.sessions).toBeGreaterThan(0);
}, 120_000);
