import { expect, test } from "vitest";
import { readDiscordSettings } from "./settings.ts";

const read = (env: Record<string, string>) => readDiscordSettings(env, "no such file");

test("without a token there is no Discord channel, whatever else is set", () => {
  expect(read({ DISCORD_TOKEN: "", DISCORD_API: "nonsense" })).toEqual({
    ok: true,
    value: undefined,
  });
});

test("a token alone is enough", () => {
  const settings = read({ DISCORD_TOKEN: " abc.def-ghi_1 " });
  expect(settings.ok && settings.value?.token.reveal()).toBe("abc.def-ghi_1");
});

test("address and shards are read", () => {
  const settings = read({
    DISCORD_TOKEN: "a",
    DISCORD_API: "http://127.0.0.1:8080/api/",
    DISCORD_SHARDS: "0, 2",
    DISCORD_SHARD_COUNT: "3",
  });
  expect(settings.ok && settings.value).toMatchObject({
    api: "http://127.0.0.1:8080/api",
    shards: [0, 2],
    shardCount: 3,
  });
});

test.each([
  { env: { DISCORD_TOKEN: "top secret" }, says: "DISCORD_TOKEN" },
  { env: { DISCORD_TOKEN: "a", DISCORD_API: "discord.com/api" }, says: "DISCORD_API" },
  { env: { DISCORD_TOKEN: "a", DISCORD_API: "https://discord.com/api/v10" }, says: "DISCORD_API" },
  { env: { DISCORD_TOKEN: "a", DISCORD_SHARDS: "0" }, says: "DISCORD_SHARD_COUNT" },
  { env: { DISCORD_TOKEN: "a", DISCORD_SHARD_COUNT: "2" }, says: "DISCORD_SHARDS" },
  {
    env: { DISCORD_TOKEN: "a", DISCORD_SHARDS: "2", DISCORD_SHARD_COUNT: "2" },
    says: "counts from 0",
  },
  {
    env: { DISCORD_TOKEN: "a", DISCORD_SHARDS: "all", DISCORD_SHARD_COUNT: "2" },
    says: "DISCORD_SHARDS",
  },
])("$env is refused in words that do not repeat the token", ({ env, says }) => {
  const settings = read(env);
  expect(settings.ok ? "" : settings.error).toContain(says);
  expect(JSON.stringify(settings)).not.toContain("top secret");
});
