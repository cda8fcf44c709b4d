import { PermissionFlagsBits } from "discord-api-types/v10";
import type { Channel, Guild, Member, World } from "./world.ts";

export type PermissionName = keyof typeof PermissionFlagsBits;

export const bits = (names: readonly PermissionName[]): bigint =>
  names.reduce((all, name) => all | PermissionFlagsBits[name], 0n);

const ALL = bits(Object.keys(PermissionFlagsBits) as PermissionName[]);

/** In a direct message both may do this (Permissions, "Permissions in direct messages": from memory). */
const DIRECT = bits([
  "ViewChannel",
  "SendMessages",
  "EmbedLinks",
  "AttachFiles",
  "ReadMessageHistory",
  "AddReactions",
  "UseExternalEmojis",
  "MentionEveryone",
  "UseApplicationCommands",
]);

/** What a member's roles give, channels aside (Permissions, "Permission Overwrites"). */
export function guildPermissions(guild: Guild, member: Member): bigint {
  if (guild.ownerId === member.user.id) return ALL;
  let all = guild.roles.get(guild.id)?.permissions ?? 0n;
  for (const id of member.roles) all |= guild.roles.get(id)?.permissions ?? 0n;
  return (all & PermissionFlagsBits.Administrator) === 0n ? all : ALL;
}

/**
 * What a user may do in a channel: roles, then the overwrites for @everyone, for the roles taken
 * together, and for the member (Permissions, "Permission Overwrites"). Without sight of the channel,
 * nothing; without sending, nothing that rides on it ("Implicit Permissions").
 */
export function channelPermissions(world: World, channel: Channel, userId: string): bigint {
  if (channel.guildId === undefined)
    return channel.recipients.some(({ id }) => id === userId) ? DIRECT : 0n;
  const guild = world.guilds.get(channel.guildId);
  const member = guild?.members.get(userId);
  if (guild === undefined || member === undefined) return 0n;
  const base = guildPermissions(guild, member);
  if ((base & PermissionFlagsBits.Administrator) !== 0n) return ALL;
  return implied(applyOverwrites(base, channel, guild, member));
}

function applyOverwrites(base: bigint, channel: Channel, guild: Guild, member: Member): bigint {
  const everyone = channel.overwrites.get(guild.id);
  let all = (base & ~(everyone?.deny ?? 0n)) | (everyone?.allow ?? 0n);
  let allow = 0n;
  let deny = 0n;
  for (const id of member.roles) {
    allow |= channel.overwrites.get(id)?.allow ?? 0n;
    deny |= channel.overwrites.get(id)?.deny ?? 0n;
  }
  all = (all & ~deny) | allow;
  const own = channel.overwrites.get(member.user.id);
  return (all & ~(own?.deny ?? 0n)) | (own?.allow ?? 0n);
}

function implied(all: bigint): bigint {
  if ((all & PermissionFlagsBits.ViewChannel) === 0n) return 0n;
  if ((all & PermissionFlagsBits.SendMessages) !== 0n) return all;
  return all & ~bits(["MentionEveryone", "SendTTSMessages", "AttachFiles", "EmbedLinks"]);
}

export const has = (all: bigint, name: PermissionName): boolean =>
  (all & PermissionFlagsBits[name]) !== 0n;
