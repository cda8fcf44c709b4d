import { DiscordAPIError, HTTPError } from "discord.js";
import { expect, test } from "vitest";
import { failureOf, Limited } from "./failure.ts";

const request = { body: undefined, files: undefined };
const url = "https://discord.com/api/v10/interactions/1/very-secret/callback";
const api = (status: number, code: number) =>
  new DiscordAPIError({ code, message: "no" }, code, status, "POST", url, request);

// Codes: Discord's documentation, topic "Opcodes and Status Codes", JSON error codes (from memory).
test.each([
  { error: new Limited(250), failure: { kind: "limited", ms: 250 } },
  {
    error: new HTTPError(503, "no", "POST", url, request),
    failure: { kind: "unreachable", what: "503" },
  },
  { error: api(403, 50_013), failure: { kind: "no-permission" } },
  { error: api(403, 50_001), failure: { kind: "no-permission" } },
  { error: api(403, 50_007), failure: { kind: "closed-to-us" } },
  { error: api(404, 10_003), failure: { kind: "gone", code: 10_003 } },
  { error: api(401, 0), failure: { kind: "bad-token" } },
  { error: api(400, 50_035), failure: { kind: "refused", code: 50_035, what: "400 50035" } },
  {
    error: new TypeError("fetch failed", { cause: { code: "ECONNREFUSED" } }),
    failure: { kind: "unreachable", what: "ECONNREFUSED" },
  },
  {
    error: new DOMException("aborted", "AbortError"),
    failure: { kind: "unreachable", what: "AbortError" },
  },
])("$failure", ({ error, failure }) => {
  expect(failureOf(error)).toEqual(failure);
  expect(JSON.stringify(failureOf(error))).not.toContain("secret");
});
