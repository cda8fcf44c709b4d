import { Client, GatewayIntentBits, Options, Partials } from "discord.js";
import type { Clock } from "../../../platform/clock.ts";
import type { DiscordSettings } from "../../../settings.ts";
import { type ApiParts, restOptions } from "../delivery/api.ts";
import { createThrottler } from "./identify-slots.ts";

/** The bot reads what is written in a channel of its own only with this one switched on. */
const CONTENT = GatewayIntentBits.MessageContent;

const intents = [
  GatewayIntentBits.Guilds,
  GatewayIntentBits.GuildMessages,
  GatewayIntentBits.DirectMessages,
];

export type ClientParts = Omit<ApiParts, "clock"> & {
  /** Real time, by which the network goes. */
  readonly wire: Clock;
  /** Whether the application's owner lets it read messages. */
  readonly content: boolean;
  /** When a shard of this data folder identified last, Unix ms. */
  readonly identified: number | undefined;
  readonly onIdentify: (at: number) => void;
  /** Whether it may be asked into calls, so that it needs to know who is in them. */
  readonly calls: boolean;
  /** Shards may identify this often, ms; missing: as Discord demands. */
  readonly identifyEvery?: number | undefined;
};

const shardsOf = ({ shards, shardCount }: DiscordSettings) =>
  shards === undefined || shardCount === undefined
    ? { shards: "auto" as const }
    : { shards: [...shards], shardCount };

/** The Discord library's client, as this channel uses it: the socket, and a small memory. */
export function createClient(parts: ClientParts): Client {
  const { settings, wire, content, calls, identifyEvery } = parts;
  return new Client({
    ...shardsOf(settings),
    intents: [
      ...intents,
      ...(content ? [CONTENT] : []),
      ...(calls ? [GatewayIntentBits.GuildVoiceStates] : []),
    ],
    partials: [Partials.Channel, Partials.Message],
    rest: restOptions(parts),
    allowedMentions: { parse: [] },
    ws: {
      buildIdentifyThrottler: async (manager) => {
        const { session_start_limit: limit } = await manager.fetchGatewayInformation();
        const count = await manager.getShardCount();
        const { identified: before, onIdentify } = parts;
        const concurrency = limit.max_concurrency;
        const spacing = identifyEvery;
        return createThrottler({ clock: wire, count, concurrency, spacing, before, onIdentify });
      },
    },
    // What is not looked at is not kept: people and messages come with their events.
    makeCache: Options.cacheWithLimits({
      ...Options.DefaultMakeCacheSettings,
      ApplicationCommandManager: 0,
      AutoModerationRuleManager: 0,
      BaseGuildEmojiManager: 0,
      GuildBanManager: 0,
      GuildEmojiManager: 0,
      GuildInviteManager: 0,
      GuildMemberManager: { maxSize: 0, keepOverLimit: ({ id, client }) => id === client.user.id },
      GuildScheduledEventManager: 0,
      GuildStickerManager: 0,
      MessageManager: 0,
      PresenceManager: 0,
      ReactionManager: 0,
      StageInstanceManager: 0,
      ThreadManager: 0,
      UserManager: { maxSize: 0, keepOverLimit: ({ id, client }) => id === client.user.id },
      VoiceStateManager: 0,
    }),
  });
}
