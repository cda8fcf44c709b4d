import {
  ButtonStyle,
  ChannelType,
  type ChatInputCommandInteraction,
  type Client,
  ComponentType,
  Events,
  type Interaction,
  MessageFlags,
} from "discord.js";
import { expect, onTestFinished, test } from "vitest";
import { clientOf } from "./support/client.ts";
import { type Setting, setUp, TOKEN } from "./support/set-up.ts";

/** What the real client does with interactions, messages and people, one test each way. */
async function withClient(
  onInteraction: (interaction: Interaction) => Promise<unknown> = async () => undefined,
): Promise<Setting & { readonly client: Client }> {
  const setting = await setUp();
  const { call, app, discord } = setting;
  await call("PUT", `/applications/${app.id}/commands`, [{ name: "mix", description: "Mix" }]);
  const client = clientOf(discord);
  onTestFinished(() => client.destroy());
  const failures: unknown[] = [];
  client.on(Events.InteractionCreate, (interaction) => {
    void onInteraction(interaction).catch((error: unknown) => failures.push(error));
  });
  onTestFinished(() => expect(failures).toEqual([]));
  await client.login(TOKEN);
  await discord.settled();
  return { ...setting, client };
}

const onCommand =
  (answer: (interaction: ChatInputCommandInteraction) => Promise<unknown>) =>
  async (interaction: Interaction): Promise<void> => {
    if (interaction.isChatInputCommand()) await answer(interaction);
  };

const picture = { attachment: Buffer.from("a picture"), name: "plan.png" };
const row = (customId: string) => ({
  type: ComponentType.ActionRow as const,
  components: [
    {
      type: ComponentType.Button as const,
      style: ButtonStyle.Primary as const,
      label: customId,
      customId,
    },
  ],
});

test("defers, edits in a picture, follows up, takes back", async () => {
  const { ana, discord } = await withClient(
    onCommand(async (interaction) => {
      await interaction.deferReply({ flags: MessageFlags.Ephemeral });
      await interaction.editReply({ content: "the plan", files: [picture] });
      const more = await interaction.followUp({ content: "more", flags: MessageFlags.Ephemeral });
      await interaction.editReply({ content: "the plan, again" });
      await interaction.deleteReply(more);
      expect((await interaction.fetchReply()).content).toBe("the plan, again");
    }),
  );
  const mixed = ana.slash("mix");
  await discord.settled();
  expect(mixed.responses).toMatchObject([
    {
      content: "the plan, again",
      ephemeral: true,
      attachments: [{ name: "plan.png", bytes: new Uint8Array(picture.attachment) }],
    },
  ]);
  expect(discord.violations).toEqual([]);
});

test("replies with a picture and reads its own response", async () => {
  const { ana, discord, guild } = await withClient(
    onCommand(async (interaction) => {
      const { resource } = await interaction.reply({
        content: "plan",
        files: [picture],
        withResponse: true,
      });
      await interaction.followUp(`that was ${resource?.message?.id}`);
    }),
  );
  ana.slash("mix");
  await discord.settled();
  const [first, second] = guild.channel("bench").messages;
  expect(first?.attachments).toHaveLength(1);
  expect(second?.content).toBe(`that was ${first?.id}`);
  expect(discord.violations).toEqual([]);
});

test("buttons update their message, at once and later", async () => {
  const { ana, discord, guild } = await withClient(async (interaction) => {
    if (interaction.isChatInputCommand())
      await interaction.reply({ content: "0", components: [row("now"), row("later")] });
    if (!interaction.isButton()) return;
    if (interaction.customId === "now") await interaction.update({ content: "1" });
    else {
      await interaction.deferUpdate();
      await interaction.editReply({ content: "2", components: [] });
    }
  });
  const message = await ana.slash("mix").answer();
  if (message === undefined) throw new Error("no message");
  await ana.press(message, "now").answer();
  await discord.settled();
  await ana.press(message, "later").answer();
  await discord.settled();
  expect(guild.channel("bench").messages).toMatchObject([
    { content: "2", buttons: [], edits: [{ content: "0" }, { content: "1" }] },
  ]);
  expect(discord.violations).toEqual([]);
});

test("a second reply is refused by the service, even where the client would let it through", async () => {
  const { ana, discord } = await withClient(
    onCommand(async (interaction) => {
      await interaction.reply("one");
      interaction.replied = false;
      await expect(interaction.reply("two")).rejects.toMatchObject({ code: 40060 });
    }),
  );
  await ana.slash("mix").answer();
  await discord.settled();
  expect(discord.takeViolations().map(({ kind }) => kind)).toEqual(["second-acknowledgement"]);
});

test("writes, edits, fetches, deletes, types, and writes to people", async () => {
  const { ana, client, discord, guild } = await withClient();
  const channel = await client.channels.fetch(guild.channel("bench").id);
  if (channel?.type !== ChannelType.GuildText) throw new Error("no channel");
  await channel.sendTyping();
  const sent = await channel.send({ content: "one", nonce: "1", enforceNonce: true });
  await sent.edit("two");
  expect((await channel.messages.fetch({ message: sent.id, force: true })).content).toBe("two");
  expect((await channel.messages.fetch({ limit: 10 })).size).toBe(1);
  expect(guild.channel("bench").typing).toBe(1);
  await sent.delete();
  expect(guild.channel("bench").messages).toEqual([]);
  expect(guild.channel("bench").everything).toMatchObject([{ content: "two", deleted: true }]);
  expect((await client.application?.fetch())?.name).toBe("Bench bot");
  const user = await client.users.fetch(ana.id);
  await user.send("hello");
  expect(ana.direct.messages).toMatchObject([{ content: "hello", author: "Bench bot" }]);
  ana.closesDms();
  await expect(user.send("hello")).rejects.toMatchObject({ code: 50007, status: 403 });
  expect(discord.violations).toEqual([]);
});

test("knows members, roles and permissions as the service counts them", async () => {
  const { ana, client, discord, guild } = await withClient();
  const known = await client.guilds.fetch(guild.id);
  const member = await known.members.fetch(ana.id);
  expect(member.displayName).toBe("Ana");
  const found = await known.members.fetch({ query: "An", limit: 5 });
  expect([...found.keys()]).toEqual([ana.id]);
  const channel = known.channels.cache.find(({ name }) => name === "bench");
  expect(channel?.permissionsFor(known.roles.everyone).has("ViewChannel")).toBe(true);
  discord.denyPermission("bench", ["ViewChannel"], "@everyone");
  discord.setRole("Club", "Bench bot", ["ManageMessages"]);
  await discord.settled();
  expect(channel?.permissionsFor(known.roles.everyone).has("ViewChannel")).toBe(false);
  expect(known.members.me?.permissions.has("ManageMessages")).toBe(true);
  expect(discord.violations).toEqual([]);
});

test("hears edits and deletions", async () => {
  const { ana, client, discord } = await withClient();
  const heard: string[] = [];
  client.on(Events.MessageUpdate, (_, now) => heard.push(`now ${now.content}`));
  client.on(Events.MessageDelete, ({ id }) => heard.push(`gone ${id}`));
  const said = ana.dm("one");
  ana.edits(said, "two");
  discord.deleteMessage(said);
  await discord.settled();
  expect(heard).toEqual(["now two", `gone ${said.id}`]);
});

test("a program of several shards starts each of them and hears each guild once", async () => {
  const { discord, ana } = await setUp({}, { app: { recommendedShards: 2, maxConcurrency: 2 } });
  const other = discord.guild({ name: "Other", channels: ["desk"], members: ["Cy"] });
  const client = clientOf(discord, { shards: "auto" });
  onTestFinished(() => client.destroy());
  const heard: string[] = [];
  client.on(Events.MessageCreate, ({ guild, channelId }) => {
    heard.push(guild === null ? "direct 0" : `${guild.name} ${guild.shardId} ${channelId !== ""}`);
  });
  await client.login(TOKEN);
  await discord.until(() => client.isReady(), "Readiness");
  await discord.settled();
  ana.says("bench", "hello");
  other.member("Cy").says("desk", "hello");
  ana.dm("hello");
  await discord.settled();
  expect(discord.identifies.map(({ shard }) => shard)).toEqual([
    [0, 2],
    [1, 2],
  ]);
  expect(heard).toHaveLength(3);
  expect(new Set(heard.map((line) => line.split(" ").at(1)))).toEqual(new Set(["0", "1"]));
  expect(discord.violations).toEqual([]);
});

test("content that is not allowed ends the client's log-in", async () => {
  const { discord } = await setUp();
  const client = clientOf(discord, { intents: ["Guilds", "MessageContent"] });
  onTestFinished(() => client.destroy());
  await expect(client.login(TOKEN)).rejects.toThrow(/disallowed intents/i);
  await expect(clientOf(discord).login("wrong")).rejects.toThrow(/invalid token/i);
});
