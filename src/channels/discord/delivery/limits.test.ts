import { expect, test } from "vitest";
import { Limits, routeKey } from "./limits.ts";

const headers = (given: Record<string, string | number>) => ({
  get: (name: string) => (given[name] === undefined ? null : String(given[name])),
});
const POST = "POST /channels/111111111111111111/messages";

// Header names and the meaning of a bucket: Discord's documentation, topic "Rate Limits"
// (from memory; the names as @discordjs/rest 2 reads them).
const bucket = (remaining: number, after: number, limit = 5) =>
  headers({
    "x-ratelimit-bucket": "abc",
    "x-ratelimit-limit": limit,
    "x-ratelimit-remaining": remaining,
    "x-ratelimit-reset-after": after,
  });

test.each([
  ["post", "https://discord.com/api/v10/channels/111111111111111111/messages", POST],
  [
    "PATCH",
    "http://127.0.0.1:1/api/v10/channels/111111111111111111/messages/222222222222222222",
    "PATCH /channels/111111111111111111/messages/:id",
  ],
  ["GET", "/users/@me?x=1", "GET /users/@me"],
])("%s %s counts as %s", (method, path, key) => {
  expect(routeKey(method, path)).toBe(key);
});

test("a bucket nobody has told of is free", () => {
  expect(new Limits().freeAt(POST, "edit", 1000)).toBe(1000);
});

test("the last of a bucket is left for a cue, and an empty one waits for its reset", () => {
  const limits = new Limits();
  limits.learn(POST, 200, bucket(1, 2), 1000);
  expect(limits.freeAt(POST, "cue", 1000)).toBe(1000);
  expect(limits.freeAt(POST, "other", 1000)).toBe(3000);
  limits.take(POST, 1000);
  expect(limits.freeAt(POST, "cue", 1000)).toBe(3000);
  expect(limits.freeAt(POST, "cue", 3000)).toBe(3000);
});

test("a bucket of one keeps nothing back", () => {
  const limits = new Limits();
  limits.learn(POST, 200, bucket(1, 2, 1), 0);
  expect(limits.freeAt(POST, "edit", 0)).toBe(0);
});

test("routes of one bucket share it, for one channel alone", () => {
  const limits = new Limits();
  const other = POST.replace("POST", "PUT");
  const elsewhere = POST.replace("1111", "2222");
  for (const key of [POST, other, elsewhere]) limits.learn(key, 200, bucket(4, 2), 0);
  for (let turn = 0; turn < 4; turn += 1) limits.take(POST, 0);
  expect(limits.freeAt(other, "cue", 0)).toBe(2000);
  expect(limits.freeAt(elsewhere, "cue", 0)).toBe(0);
});

test.each([
  { given: { "retry-after": 1.5 }, wait: 1500 },
  { given: { "retry-after": 0 }, wait: 1000 },
  { given: {}, wait: 1000 },
])("refused for haste with $given it waits $wait ms", ({ given, wait }) => {
  const limits = new Limits();
  expect(limits.learn(POST, 429, headers(given), 50)).toBe(wait);
  expect(limits.freeAt(POST, "cue", 50)).toBe(50 + wait);
});

test("a refusal of all requests holds all back", () => {
  const limits = new Limits();
  limits.learn(POST, 429, headers({ "retry-after": 3, "x-ratelimit-global": "true" }), 0);
  expect(limits.freeAt("PATCH /channels/2/messages/:id", "cue", 0)).toBe(3000);
});

test("of fifty requests in a second edits leave the half, answers the last eight to cues", () => {
  const limits = new Limits();
  const take = (count: number, now: number): void => {
    for (let turn = 0; turn < count; turn += 1) limits.take(`POST /channels/${turn}/messages`, now);
  };
  take(25, 100);
  expect(limits.freeAt(POST, "edit", 200)).toBe(1100);
  expect(limits.freeAt(POST, "other", 200)).toBe(200);
  take(17, 200);
  expect(limits.freeAt(POST, "other", 300)).toBe(1100);
  expect(limits.freeAt(POST, "cue", 300)).toBe(300);
  take(8, 900);
  expect(limits.freeAt(POST, "cue", 950)).toBe(1100);
});

test("whichever second is looked at, it holds fifty at most, however hard cues press", () => {
  const limits = new Limits();
  const went: number[] = [];
  for (let now = 0; now < 10_000; now += 7) {
    for (let turn = 0; turn < 3; turn += 1) {
      const key = `POST /channels/${now}${turn}/messages`;
      if (limits.freeAt(key, turn === 0 ? "cue" : "other", now) > now) continue;
      limits.take(key, now);
      went.push(now);
    }
  }
  for (const from of went) {
    expect(went.filter((at) => at >= from && at < from + 1000).length).toBeLessThanOrEqual(50);
  }
});
