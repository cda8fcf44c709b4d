import {
  type APIChannel,
  type APIGuild,
  type APIRole,
  ChannelType,
  type GatewayGuildCreateDispatchData,
  GuildDefaultMessageNotifications,
  GuildExplicitContentFilter,
  GuildMFALevel,
  GuildNSFWLevel,
  GuildPremiumTier,
  type GuildSystemChannelFlags,
  GuildVerificationLevel,
  Locale,
  type RoleFlags,
} from "discord-api-types/v10";
import { statesOf, voiceStateView } from "../voice-states.ts";
import type { Application, Channel, Guild, Role, World } from "../world.ts";
import { memberView, userView } from "./user.ts";

export const roleView = (role: Role): APIRole => ({
  id: role.id,
  name: role.name,
  color: 0,
  colors: { primary_color: 0, secondary_color: null, tertiary_color: null },
  hoist: false,
  icon: null,
  unicode_emoji: null,
  position: role.position,
  permissions: String(role.permissions),
  managed: role.botId !== undefined,
  mentionable: role.mentionable,
  flags: 0 as RoleFlags,
  ...(role.botId === undefined ? {} : { tags: { bot_id: role.botId } }),
});

/** A channel as one of its users (`viewer`) gets it; in a direct message, the other one is named. */
export function channelView(channel: Channel, viewer?: string): APIChannel {
  const last = channel.messages.findLast(
    ({ deletedAt, onlyFor }) => deletedAt === undefined && onlyFor === undefined,
  );
  if (channel.guildId === undefined) {
    return {
      id: channel.id,
      type: ChannelType.DM,
      last_message_id: last?.id ?? null,
      flags: 0,
      recipients: channel.recipients.filter(({ id }) => id !== viewer).map(userView),
    } as unknown as APIChannel;
  }
  return {
    id: channel.id,
    type: channel.type,
    guild_id: channel.guildId,
    name: channel.name,
    position: 0,
    parent_id: null,
    topic: null,
    nsfw: false,
    flags: 0,
    rate_limit_per_user: 0,
    last_message_id: last?.id ?? null,
    permission_overwrites: [...channel.overwrites.values()].map((overwrite) => ({
      id: overwrite.id,
      type: overwrite.type,
      allow: String(overwrite.allow),
      deny: String(overwrite.deny),
    })),
  } as unknown as APIChannel;
}

export function guildView(guild: Guild): APIGuild {
  return {
    id: guild.id,
    name: guild.name,
    owner_id: guild.ownerId,
    icon: null,
    splash: null,
    discovery_splash: null,
    banner: null,
    description: null,
    afk_channel_id: null,
    afk_timeout: 300,
    verification_level: GuildVerificationLevel.None,
    default_message_notifications: GuildDefaultMessageNotifications.AllMessages,
    explicit_content_filter: GuildExplicitContentFilter.Disabled,
    roles: [...guild.roles.values()].map(roleView),
    emojis: [],
    stickers: [],
    features: [],
    mfa_level: GuildMFALevel.None,
    application_id: null,
    system_channel_id: null,
    system_channel_flags: 0 as GuildSystemChannelFlags,
    rules_channel_id: null,
    public_updates_channel_id: null,
    safety_alerts_channel_id: null,
    vanity_url_code: null,
    premium_tier: GuildPremiumTier.None,
    premium_progress_bar_enabled: false,
    preferred_locale: Locale.EnglishUS,
    nsfw_level: GuildNSFWLevel.Default,
    hub_type: null,
    incidents_data: null,
    region: "",
  };
}

/**
 * A guild as it is announced: all its channels; of its members only the bot, unless the members
 * intent is on (Gateway Events, "Guild Create").
 */
export function guildCreateView(
  world: World,
  guild: Guild,
  application: Application,
  withMembers: boolean,
): GatewayGuildCreateDispatchData {
  const bot = guild.members.get(application.bot.id);
  return {
    ...guildView(guild),
    joined_at: new Date(bot?.joinedAt ?? world.now()).toISOString(),
    large: false,
    unavailable: false,
    member_count: guild.members.size,
    voice_states: [...statesOf(world, guild.id)].map(([user, state]) =>
      voiceStateView(user, state, state.session),
    ),
    members: [...guild.members.values()]
      .filter(({ user }) => withMembers || user.id === application.bot.id)
      .map(memberView),
    channels: [...guild.channelIds].flatMap((id) => {
      const channel = world.channels.get(id);
      return channel === undefined ? [] : [channelView(channel)];
    }),
    threads: [],
    presences: [],
    stage_instances: [],
    guild_scheduled_events: [],
    soundboard_sounds: [],
  } as unknown as GatewayGuildCreateDispatchData;
}
