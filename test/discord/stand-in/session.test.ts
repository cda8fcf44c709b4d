import {
  ButtonStyle,
  ComponentType,
  Events,
  LabelBuilder,
  MessageFlags,
  ModalBuilder,
  TextInputBuilder,
  TextInputStyle,
} from "discord.js";
import { expect, test } from "vitest";
import { createFakeClock } from "../../support/fake-clock.ts";
import { startStandIn } from "./start.ts";
import { clientOf } from "./support/client.ts";

const TOKEN = "an-invented-token";

test("the real client logs in, hears, answers, and completes a slash command", async () => {
  const discord = await startStandIn({ clock: createFakeClock(), pace: 0.02 });
  const app = discord.application({ token: TOKEN });
  const guild = discord.guild({ name: "Club", channels: ["bench"], members: ["Ana"] });
  const ana = guild.member("Ana");
  const client = clientOf(discord);
  try {
    client.on(Events.MessageCreate, (message) => {
      if (!message.author.bot) void message.reply(`heard: ${message.content}`);
    });
    client.on(Events.InteractionCreate, (interaction) => {
      if (interaction.isAutocomplete())
        void interaction.respond([{ name: "fixer", value: "fixer" }]);
      if (interaction.isChatInputCommand()) {
        const total = interaction.options.getNumber("total", true);
        void interaction.reply({
          content: `${interaction.options.getSubcommand()} ${total}`,
          flags: MessageFlags.Ephemeral,
          components: [
            {
              type: ComponentType.ActionRow,
              components: [
                {
                  type: ComponentType.Button,
                  style: ButtonStyle.Primary,
                  label: "in",
                  customId: "in",
                },
              ],
            },
          ],
        });
      }
      if (interaction.isButton())
        void interaction.showModal(
          new ModalBuilder()
            .setCustomId("form")
            .setTitle("Teach")
            .addLabelComponents(
              new LabelBuilder()
                .setLabel("Name")
                .setTextInputComponent(
                  new TextInputBuilder().setCustomId("name").setStyle(TextInputStyle.Short),
                ),
            ),
        );
      if (interaction.isModalSubmit())
        void interaction.reply(`taught ${interaction.fields.getTextInputValue("name")}`);
    });
    await client.login(TOKEN);
    await discord.settled();
    expect(client.isReady()).toBe(true);
    expect(client.guilds.cache.map(({ name }) => name)).toEqual(["Club"]);
    expect(guild.channel("bench").messages).toEqual([]);

    ana.says("bench", "hello");
    ana.says("bench", `${app.mention} hello`);
    ana.dm("hello");
    await discord.settled();
    expect(guild.channel("bench").messages.map(({ content }) => content)).toEqual([
      "hello",
      `${app.mention} hello`,
      "heard:",
      `heard: ${app.mention} hello`,
    ]);
    expect(ana.direct.messages.at(-1)).toMatchObject({
      content: "heard: hello",
      author: "Bench bot",
    });

    await client.application?.commands.set([
      {
        name: "mix",
        description: "Mix",
        options: [
          {
            type: 1,
            name: "how-much",
            description: "How much",
            options: [
              { type: 10, name: "total", description: "mL", required: true },
              { type: 3, name: "bottle", description: "which", autocomplete: true },
            ],
          },
        ],
      },
    ]);
    expect(app.registrations).toMatchObject([{ scope: "global", count: 1 }]);
    const completed = ana.autocomplete("mix how-much", { option: "bottle", typed: "fi" });
    await completed.answer();
    expect(completed.choices).toEqual([{ name: "fixer", value: "fixer" }]);
    const mixed = ana.slash("mix how-much", { options: { total: 500 } });
    const reply = await mixed.answer();
    expect(mixed).toMatchObject({ acknowledged: true, ephemeral: true, content: "how-much 500" });
    expect(reply?.buttons.map(({ label }) => label)).toEqual(["in"]);
    expect(guild.channel("bench").messages).toHaveLength(4);

    const pressed = ana.press({ id: reply?.id ?? "" }, "in");
    await pressed.answer();
    if (pressed.modal === undefined) throw new Error("no form");
    const taught = ana.submits(pressed.modal, { Name: "tea" });
    expect(await taught.answer()).toMatchObject({ content: "taught tea", ephemeral: false });
    await discord.settled();
    expect(discord.violations).toEqual([]);
  } finally {
    await client.destroy();
    await discord.close();
  }
});
