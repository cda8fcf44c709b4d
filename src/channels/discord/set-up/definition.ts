import {
  ApplicationCommandType,
  ApplicationIntegrationType,
  ChannelType,
  type RESTPostAPIChatInputApplicationCommandsJSONBody as Definition,
  InteractionContextType,
  ApplicationCommandOptionType as Option,
  PermissionFlagsBits,
} from "discord-api-types/v10";

/** The command of administrators, and the one with which each member chooses for themselves. */
export const ADMINISTER = "wetside";
export const MINE = "mine";

const voiceOption = (description: string) => ({
  type: Option.Channel as const,
  name: "channel",
  description,
  channel_types: [ChannelType.GuildVoice as const],
});

/** What the channel itself adds to the commands of the bench. */
export const ownDefinitions: readonly Definition[] = [
  {
    type: ApplicationCommandType.ChatInput,
    name: ADMINISTER,
    description: "Open a bench in this channel and say who may use it.",
    contexts: [InteractionContextType.Guild],
    integration_types: [ApplicationIntegrationType.GuildInstall],
    default_member_permissions: String(PermissionFlagsBits.ManageGuild),
    options: [
      {
        type: Option.Subcommand,
        name: "open",
        description: "Open a bench in this channel, which must be a private one.",
        options: [
          {
            type: Option.String,
            name: "zone",
            description: "The bench's time zone, like Europe/Lisbon",
            max_length: 60,
          },
          {
            type: Option.String,
            name: "bench",
            description: "Move a bench that was open elsewhere to this channel",
            autocomplete: true,
            max_length: 60,
          },
        ],
      },
      {
        type: Option.Subcommand,
        name: "close",
        description: "Close the bench of this channel; everything it knows is kept.",
      },
      {
        type: Option.Subcommand,
        name: "show",
        description: "Who may use the bench of this channel, and whether anything is amiss.",
      },
      {
        type: Option.SubcommandGroup,
        name: "member",
        description: "People who may use the bench",
        options: ["add", "remove"].map((name) => ({
          type: Option.Subcommand as const,
          name,
          description: name === "add" ? "Let somebody use the bench." : "Take that back.",
          options: [
            {
              type: Option.User as const,
              name: "user",
              description: "Who",
              required: true,
            },
          ],
        })),
      },
      {
        type: Option.Subcommand,
        name: "role",
        description: "A role whose people may use the bench; without one, only those listed may.",
        options: [{ type: Option.Role, name: "role", description: "Which role" }],
      },
      {
        type: Option.Subcommand,
        name: "join",
        description: "Come into a voice channel: the one named, the bench's own, or yours.",
        options: [voiceOption("Which voice channel")],
      },
      {
        type: Option.Subcommand,
        name: "leave",
        description: "Leave the voice channel.",
      },
      {
        type: Option.Subcommand,
        name: "voice",
        description: "The bench's voice channel; without one I come to where a member is.",
        options: [voiceOption("The voice channel members use at the bench")],
      },
      {
        type: Option.Subcommand,
        name: "group-channel",
        description: "Where finished runs may be shared; without one, sharing is off.",
        options: [
          {
            type: Option.Channel,
            name: "channel",
            description: "The film group's channel",
            channel_types: [ChannelType.GuildText],
          },
        ],
      },
    ],
  },
  {
    type: ApplicationCommandType.ChatInput,
    name: MINE,
    description: "What you choose for yourself.",
    contexts: [InteractionContextType.Guild, InteractionContextType.BotDM],
    integration_types: [ApplicationIntegrationType.GuildInstall],
    options: [
      {
        type: Option.Subcommand,
        name: "reminders",
        description: "Where your reminders and the daily message reach you.",
        options: [
          {
            type: Option.String,
            name: "where",
            description: "In the bench's channel, or by direct message",
            required: true,
            choices: [
              { name: "in the channel", value: "channel" },
              { name: "by direct message", value: "dm" },
            ],
          },
        ],
      },
      {
        type: Option.Subcommand,
        name: "bench",
        description: "Which bench your direct messages are for.",
      },
    ],
  },
];
