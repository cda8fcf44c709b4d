import { expect, test } from "vitest";
import { setUp } from "./support/set-up.ts";

// Message resource, "Allowed Mentions Object": what is rung by which configuration.
const roles = [{ name: "quiet" }, { name: "loud", mentionable: true }];
const members = ["Ana", { name: "Bo", roles: ["quiet"] }, { name: "Cy", roles: ["loud"] }];

test.each<[string, object | undefined, string[]]>([
  ["nothing set: users and roles that may be mentioned", undefined, ["Ana", "Cy"]],
  ["nothing allowed", { parse: [] }, []],
  ["users", { parse: ["users"] }, ["Ana"]],
  ["roles", { parse: ["roles"] }, ["Cy"]],
  ["everyone, without the permission", { parse: ["everyone"] }, []],
])("who is rung with %s", async (_, allowed, rung) => {
  const { call, bench, guild, ana } = await setUp({ roles, members });
  const content = `@everyone <@${ana.id}> ${guild.role("quiet").mention} ${guild.role("loud").mention}`;
  await call("POST", `${bench}/messages`, { content, allowed_mentions: allowed });
  expect([...(guild.channel("bench").messages[0]?.pinged ?? [])].sort()).toEqual(rung);
});

test("a listed user is rung only when the text names them", async () => {
  const { call, bench, guild, ana } = await setUp({ roles, members });
  const allowed_mentions = { users: [ana.id, guild.member("Bo").id] };
  await call("POST", `${bench}/messages`, { content: ana.mention, allowed_mentions });
  const embed = { description: ana.mention };
  await call("POST", `${bench}/messages`, { embeds: [embed], allowed_mentions });
  await call("POST", `${bench}/messages`, { content: ana.mention, allowed_mentions, flags: 4096 });
  expect(guild.channel("bench").messages.map(({ pinged }) => pinged)).toEqual([["Ana"], [], []]);
});

test("with the permission everyone who sees the channel is rung", async () => {
  const { call, bench, guild } = await setUp({
    members: ["Ana", "Bo"],
    bot: { permissions: ["MentionEveryone"] },
    channels: [{ name: "bench", overwrites: [{ for: "Bo", deny: ["ViewChannel"] }] }],
  });
  const content = "@everyone";
  await call("POST", `${bench}/messages`, { content });
  await call("POST", `${bench}/messages`, { content, allowed_mentions: { parse: ["users"] } });
  expect(guild.channel("bench").messages[0]?.pinged).toContain("Ana");
  expect(guild.channel("bench").messages[0]?.pinged).not.toContain("Bo");
  expect(guild.channel("bench").messages[1]?.pinged).toEqual([]);
});

test("a reply rings its author unless told not to; an edit rings nobody", async () => {
  const { call, bench, guild, ana } = await setUp();
  const asked = ana.says("bench", "hello");
  const message_reference = { message_id: asked.id };
  const said = await call("POST", `${bench}/messages`, { content: "a", message_reference });
  await call("POST", `${bench}/messages`, {
    content: "b",
    message_reference,
    allowed_mentions: { parse: [] },
  });
  await call("PATCH", `${bench}/messages/${said.body.id}`, { content: guild.member("Bo").mention });
  expect(guild.channel("bench").messages.map(({ pinged }) => pinged)).toEqual([[], ["Ana"], []]);
});

test("an edit reads its mentions anew, by the default rules unless it brings its own", async () => {
  const { call, bench, ana } = await setUp();
  const { body } = await call("POST", `${bench}/messages`, {
    content: ana.mention,
    allowed_mentions: { parse: [] },
  });
  const edited = async (more: object): Promise<string[]> =>
    (await call("PATCH", `${bench}/messages/${body.id}`, more)).body.mentions.map(
      ({ id }: { id: string }) => id,
    );
  expect(body.mentions).toEqual([]);
  expect(await edited({ content: `again ${ana.mention}` })).toEqual([ana.id]);
  expect(await edited({ content: ana.mention, allowed_mentions: { parse: [] } })).toEqual([]);
});

test("a reply to what is gone is refused, or goes without", async () => {
  const { call, bench, ana, discord, guild } = await setUp();
  const asked = ana.says("bench", "hello");
  discord.deleteMessage(asked);
  const message_reference = { message_id: asked.id };
  const refused = await call("POST", `${bench}/messages`, { content: "a", message_reference });
  expect([refused.status, refused.body.code]).toEqual([400, 50035]);
  await call("POST", `${bench}/messages`, {
    content: "b",
    message_reference: { ...message_reference, fail_if_not_exists: false },
  });
  expect(guild.channel("bench").messages.map(({ content }) => content)).toEqual(["b"]);
  expect(discord.violations).toEqual([]);
});
