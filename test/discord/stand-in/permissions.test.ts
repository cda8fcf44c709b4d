import { expect, test } from "vitest";
import { foundGuild } from "./people/found-guild.ts";
import type { GuildSpec } from "./people/guild-spec.ts";
import { bits, channelPermissions, has } from "./permissions.ts";
import { setUp } from "./support/set-up.ts";
import { createIds } from "./time-and-ids.ts";
import { createWorld } from "./world.ts";

function permissionsOf(name: string, spec: Partial<GuildSpec>): bigint {
  const now = (): number => Date.UTC(2026, 10, 28);
  const world = createWorld(now, createIds(now));
  const guild = foundGuild(world, { name: "Club", members: [name], ...spec });
  const member = [...guild.members.values()].find(({ user }) => user.name === name);
  const [channelId = ""] = guild.channelIds;
  const channel = world.channels.get(channelId);
  if (member === undefined || channel === undefined) throw new Error("nobody, or nowhere");
  return channelPermissions(world, channel, member.user.id);
}

// Permissions, "Permission Overwrites": @everyone, then all roles (deny before allow), then member.
test.each<[string, Partial<GuildSpec>, boolean]>([
  ["everyone may", {}, true],
  [
    "everyone is shut out",
    { channels: [{ name: "c", overwrites: [{ for: "@everyone", deny: ["ViewChannel"] }] }] },
    false,
  ],
  [
    "a role lets in whom everyone's overwrite shuts out",
    {
      roles: [{ name: "keeper" }],
      members: [{ name: "Ana", roles: ["keeper"] }],
      channels: [
        {
          name: "c",
          overwrites: [
            { for: "@everyone", deny: ["ViewChannel"] },
            { for: "keeper", allow: ["ViewChannel"] },
          ],
        },
      ],
    },
    true,
  ],
  [
    "one role's allow beats another role's deny",
    {
      roles: [{ name: "keeper" }, { name: "late" }],
      members: [{ name: "Ana", roles: ["keeper", "late"] }],
      channels: [
        {
          name: "c",
          overwrites: [
            { for: "keeper", allow: ["ViewChannel"] },
            { for: "late", deny: ["ViewChannel"] },
          ],
        },
      ],
    },
    true,
  ],
  [
    "the member's own overwrite beats the role's",
    {
      roles: [{ name: "keeper" }],
      members: [{ name: "Ana", roles: ["keeper"] }],
      channels: [
        {
          name: "c",
          overwrites: [
            { for: "keeper", allow: ["ViewChannel"] },
            { for: "Ana", deny: ["ViewChannel"] },
          ],
        },
      ],
    },
    false,
  ],
  [
    "an administrator is above overwrites",
    {
      roles: [{ name: "boss", permissions: ["Administrator"] }],
      members: [{ name: "Ana", roles: ["boss"] }],
      channels: [{ name: "c", overwrites: [{ for: "Ana", deny: ["ViewChannel"] }] }],
    },
    true,
  ],
  [
    "so is the owner",
    {
      members: [{ name: "Ana", owner: true }],
      channels: [{ name: "c", overwrites: [{ for: "Ana", deny: ["ViewChannel"] }] }],
    },
    true,
  ],
])("%s", (_, spec, sees) => {
  expect(has(permissionsOf("Ana", spec), "ViewChannel")).toBe(sees);
});

// Permissions, "Implicit Permissions".
test("who does not see a channel may do nothing there; who may not send may not attach", () => {
  const hidden = permissionsOf("Ana", { everyone: ["SendMessages", "AttachFiles"] });
  expect(hidden).toBe(0n);
  const silent = permissionsOf("Ana", { everyone: ["ViewChannel", "AttachFiles", "EmbedLinks"] });
  expect(silent).toBe(bits(["ViewChannel"]));
});

test("REST asks for the permissions each route needs", async () => {
  const { call, bench, discord, ana } = await setUp();
  const theirs = ana.says("bench", "hello");
  const mine = (await call("POST", `${bench}/messages`, { content: "mine" })).body;
  const codes = async (): Promise<unknown[]> => {
    const form = new FormData();
    form.set("payload_json", "{}");
    form.set("files[0]", new Blob(["x"]), "a.txt");
    const answers = [
      await call("POST", `${bench}/messages`, { content: "c" }),
      await call("POST", `${bench}/messages`, form),
      await call("POST", `${bench}/messages`, {
        content: "re",
        message_reference: { message_id: theirs.id },
      }),
      await call("GET", `${bench}/messages/${mine.id}`),
      await call("DELETE", `${bench}/messages/${theirs.id}`),
      await call("POST", `${bench}/typing`),
    ];
    return answers.map(({ status, body }) => body?.code ?? status);
  };
  expect(await codes()).toEqual([200, 200, 200, 200, 50013, 204]);
  discord.denyPermission("bench", ["AttachFiles"]);
  expect((await codes())[1]).toBe(50013);
  discord.denyPermission("bench", ["ReadMessageHistory"]);
  expect((await codes()).slice(2, 4)).toEqual([50013, 50013]);
  expect((await call("GET", `${bench}/messages`)).body).toEqual([]);
  discord.denyPermission("bench", ["SendMessages"]);
  expect(await codes()).toEqual([50013, 50013, 50013, 50013, 50013, 50013]);
  discord.denyPermission("bench", ["ViewChannel"]);
  expect(new Set(await codes())).toEqual(new Set([50001]));
  discord.allowPermission("bench", ["ViewChannel", "SendMessages", "ManageMessages"]);
  expect((await call("DELETE", `${bench}/messages/${theirs.id}`)).status).toBe(204);
  expect(discord.violations).toEqual([]);
});

test("what is not there is unknown, and others' messages are not the bot's to edit", async () => {
  const { call, bench, ana, guild } = await setUp();
  const theirs = ana.says("bench", "hello");
  const none = "123456789012345678";
  const code = async (method: string, path: string, body?: object): Promise<unknown> => {
    const answer = await call(method, path, body);
    return [answer.status, answer.body.code];
  };
  expect(await code("GET", `/channels/${none}`)).toEqual([404, 10003]);
  expect(await code("POST", `/channels/${none}/messages`, { content: "c" })).toEqual([404, 10003]);
  expect(await code("PATCH", `${bench}/messages/${none}`, { content: "c" })).toEqual([404, 10008]);
  expect(await code("PATCH", `${bench}/messages/${theirs.id}`, { content: "c" })).toEqual([
    403, 50005,
  ]);
  expect(await code("GET", `/guilds/${none}`)).toEqual([404, 10004]);
  expect(await code("GET", `/guilds/${guild.id}/members/${none}`)).toEqual([404, 10007]);
  expect(await code("GET", `/users/${none}`)).toEqual([404, 10013]);
});

test("nobody without a token, with a wrong or a revoked one", async () => {
  const { call, discord } = await setUp();
  for (const token of [null, "wrong"]) {
    const answer = await call("GET", "/users/@me", undefined, { token });
    expect([answer.status, answer.body]).toEqual([401, { message: "401: Unauthorized", code: 0 }]);
  }
  expect((await call("GET", "/users/@me")).status).toBe(200);
  discord.revokeToken();
  expect((await call("GET", "/users/@me")).status).toBe(401);
});

test("a program that does not say it is a bot is turned away", async () => {
  const { call } = await setUp();
  expect((await call("GET", "/users/@me", undefined, { agent: "curl" })).status).toBe(403);
});

test("an unknown route is a violation", async () => {
  const { call, discord, bench } = await setUp();
  expect((await call("GET", "/nothing")).status).toBe(404);
  expect((await call("PUT", `${bench}/messages`)).status).toBe(404);
  expect((await call("GET", "/users/@me?with=x")).status).toBe(200);
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual([
    "unknown-route",
    "unknown-route",
    "unknown-field",
  ]);
});

// Users resource, "Create DM"; codes 50007 and 50278 of the list.
test("a direct message goes where it is taken", async () => {
  const { call, ana, discord, guild } = await setUp();
  const open = (id: string) => call("POST", "/users/@me/channels", { recipient_id: id });
  const { body } = await open(ana.id);
  expect(body).toMatchObject({ type: 1, recipients: [{ id: ana.id }] });
  expect((await open(ana.id)).body.id).toBe(body.id);
  const path = `/channels/${body.id}/messages`;
  expect((await call("POST", path, { content: "hello" })).status).toBe(200);
  expect(ana.direct.messages.map(({ content }) => content)).toEqual(["hello"]);
  ana.closesDms();
  expect((await call("POST", path, { content: "hello" })).body.code).toBe(50007);
  ana.closesDms(false);
  discord.removeMember(guild, "Ana");
  expect((await call("POST", path, { content: "hello" })).body.code).toBe(50278);
  expect((await open("123456789012345678")).body.code).toBe(50033);
});
