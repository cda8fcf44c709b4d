import { REST } from "discord.js";
import { afterEach, expect, test, vi } from "vitest";
import { Secret } from "../../../platform/secret.ts";
import { restOptions } from "./api.ts";
import { Limits } from "./limits.ts";

afterEach(() => void vi.useRealTimers());

test("queues of interactions that are over do not lie there for an hour", async () => {
  vi.useFakeTimers();
  const settings = { token: new Secret("an-invented-token"), api: "http://127.0.0.1:9" };
  const options = restOptions({ settings, limits: new Limits(), now: () => 0 });
  const rest = new REST({
    version: "10",
    ...options,
    makeRequest: async () => new Response("{}", { status: 200 }),
  }).setToken("an-invented-token");
  for (let one = 0; one < 20; one += 1) {
    const path = `/webhooks/100000000000000001/an-invented-token-${one}` as const;
    await rest.post(path, { body: {}, auth: false });
  }
  expect(rest.handlers.size).toBe(20);
  await vi.advanceTimersByTimeAsync(10 * 60_000);
  expect(rest.handlers.size).toBe(0);
  rest.clearHandlerSweeper();
  rest.clearHashSweeper();
});
