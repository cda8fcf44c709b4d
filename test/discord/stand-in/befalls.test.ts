import { Events } from "discord.js";
import { expect, test } from "vitest";
import { clientOf } from "./support/client.ts";
import { setUp, TOKEN } from "./support/set-up.ts";
import { readyWire } from "./support/wire.ts";

test("the real client hears what befalls it", async () => {
  const { discord, guild } = await setUp({ channels: ["bench", "desk"] });
  const client = clientOf(discord);
  const heard: string[] = [];
  client.on(Events.GuildDelete, ({ name }) => heard.push(`left ${name}`));
  client.on(Events.GuildCreate, ({ name }) => heard.push(`joined ${name}`));
  client.on(Events.GuildUnavailable, ({ name }) => heard.push(`away ${name}`));
  client.on(Events.GuildAvailable, ({ name }) => heard.push(`back ${name}`));
  client.on(Events.ChannelDelete, ({ id }) => heard.push(`gone ${id}`));
  client.on(Events.ChannelCreate, ({ name }) => heard.push(`new ${name}`));
  client.on(Events.ChannelUpdate, (_, now) => {
    if (!("permissionsFor" in now)) return;
    const mine = client.user === null ? null : now.permissionsFor(client.user);
    heard.push(`may send ${mine?.has("SendMessages")}`);
  });
  client.on(Events.ShardDisconnect, ({ code }) => heard.push(`closed ${code}`));
  try {
    await client.login(TOKEN);
    await discord.settled();
    const desk = guild.channel("desk").id;
    discord.denyPermission("bench", ["SendMessages"]);
    discord.allowPermission("bench", ["SendMessages"]);
    discord.deleteChannel("desk");
    discord.addChannel("Club", { name: "shelf" });
    discord.outage("Club");
    discord.recover("Club");
    discord.kickBot("Club");
    discord.inviteBot("Club");
    await discord.settled();
    discord.revokeToken();
    await discord.settled();
    expect(heard).toEqual([
      "back Club",
      "may send false",
      "may send true",
      `gone ${desk}`,
      "new shelf",
      "away Club",
      "back Club",
      "left Club",
      "joined Club",
      "closed 4004",
    ]);
    expect(discord.violations).toEqual([]);
  } finally {
    await client.destroy();
  }
});

test("a bot outside a guild reaches nothing there", async () => {
  const { discord, call, bench, guild } = await setUp();
  discord.kickBot("Club");
  expect((await call("POST", `${bench}/messages`, { content: "c" })).body.code).toBe(50001);
  expect((await call("GET", `/guilds/${guild.id}`)).body.code).toBe(50001);
  expect((await call("GET", "/users/@me/guilds")).body).toEqual([]);
});

test("members and roles change", async () => {
  const { discord, call, guild, ana } = await setUp({ roles: [{ name: "keeper" }] });
  const roles = async (): Promise<unknown> =>
    (await call("GET", `/guilds/${guild.id}/members/${ana.id}`)).body.roles;
  expect(await roles()).toEqual([]);
  discord.giveRole("Club", "Ana", "keeper");
  expect(await roles()).toEqual([guild.role("keeper").id]);
  discord.takeRole("Club", "Ana", "keeper");
  expect(await roles()).toEqual([]);
  const listed = await call("GET", `/guilds/${guild.id}/roles`);
  expect(listed.body.map(({ name }: { name: string }) => name)).toEqual([
    "@everyone",
    "keeper",
    "Bench bot",
  ]);
});

// Guild resource, "List Guild Members": with the members intent only.
test("a guild's channels are listed, its members only with the intent", async () => {
  const { app, call, guild } = await setUp({ channels: ["bench", "desk"] });
  const channels = await call("GET", `/guilds/${guild.id}/channels`);
  expect(channels.body.map(({ name }: { name: string }) => name)).toEqual(["bench", "desk"]);
  const path = `/guilds/${guild.id}/members?limit=2`;
  expect((await call("GET", path)).body.code).toBe(50001);
  app.allow({ guildMembers: true });
  const first = (await call("GET", path)).body;
  const rest = (await call("GET", `${path}0&after=${first[1].user.id}`)).body;
  expect([first.length, rest.length]).toEqual([2, 2]);
  const bad = await call("GET", `/guilds/${guild.id}/members?limit=0`);
  expect([bad.status, bad.body.code]).toEqual([400, 50035]);
});

test("a person does only what the program offers them", async () => {
  const { discord, app, call, guild, ana } = await setUp({
    roles: [{ name: "keeper", permissions: ["ManageGuild"] }],
    members: ["Ana", { name: "Bo", roles: ["keeper"] }],
    channels: ["bench", { name: "hidden", overwrites: [{ for: "Ana", deny: ["ViewChannel"] }] }],
  });
  await call("PUT", `/applications/${app.id}/commands`, [
    {
      name: "mix",
      description: "Mix",
      contexts: [0],
      options: [
        {
          type: 4,
          name: "count",
          description: "how many",
          required: true,
          min_value: 1,
          max_value: 9,
        },
        {
          type: 3,
          name: "kind",
          description: "which",
          choices: [{ name: "Fixer", value: "fixer" }],
        },
      ],
    },
    { name: "open", description: "Open", default_member_permissions: String(1 << 5) },
  ]);
  const wire = await readyWire(discord, TOKEN);
  const mix =
    (options: Record<string, string | number>, channel = "bench") =>
    () =>
      ana.slash("mix", { options, channel });
  expect(() => ana.slash("brew")).toThrow("not registered");
  expect(mix({})).toThrow("count is required");
  expect(mix({ count: "three" })).toThrow("a number wanted");
  expect(mix({ count: 1.5 })).toThrow("whole number");
  expect(mix({ count: 10 })).toThrow("too large");
  expect(mix({ count: 1, kind: "bleach" })).toThrow("not a choice");
  expect(mix({ count: 1, size: 2 })).toThrow("no option size");
  expect(mix({ count: 1 }, "hidden")).toThrow("sees no channel");
  expect(mix({ count: 1 }, "dm")).toThrow("not for here");
  expect(() => ana.autocomplete("mix", { option: "kind", typed: "f" })).toThrow(
    "completes nothing",
  );
  expect(() => ana.slash("open")).toThrow("lacks the permissions");
  const opened = guild.member("Bo").slash("open");
  const mixed = ana.slash("mix", { options: { count: 2, kind: "fixer" } });
  const { d } = await wire.until((frame) => frame.d?.id === mixed.id);
  expect(d).toMatchObject({
    guild_id: guild.id,
    member: { user: { id: ana.id } },
    data: {
      name: "mix",
      options: [
        { name: "count", type: 4, value: 2 },
        { name: "kind", type: 3, value: "fixer" },
      ],
    },
  });
  mixed.replay();
  await discord.until(
    () => wire.frames.filter((frame) => frame.d?.id === mixed.id).length === 2,
    "The replay",
  );
  expect(opened.acknowledged).toBe(false);
  await wire.close();
});

test("buttons are pressed by who sees them, when they can be", async () => {
  const { discord, ana, guild, bench, call } = await setUp();
  const wire = await readyWire(discord, TOKEN);
  const row = {
    type: 1,
    components: [
      { type: 2, style: 1, label: "in", custom_id: "a" },
      { type: 2, style: 1, label: "out", custom_id: "b", disabled: true },
    ],
  };
  const { body } = await call("POST", `${bench}/messages`, { content: "c", components: [row] });
  expect(() => ana.press(body, "next")).toThrow("No button next");
  expect(() => ana.press(body, "out")).toThrow("disabled");
  const forged = ana.press(body, "forged:1", { forged: true });
  const { d } = await wire.until((frame) => frame.d?.id === forged.id);
  expect(d).toMatchObject({
    type: 3,
    data: { component_type: 2, custom_id: "forged:1" },
    message: { id: body.id, content: "c" },
  });
  discord.denyPermission("bench", ["ViewChannel"], "Bo");
  expect(() => guild.member("Bo").press(body, "in")).toThrow("does not see");
  discord.deleteMessage(body);
  expect(() => ana.press(body, "in")).toThrow("deleted");
  await wire.close();
});
