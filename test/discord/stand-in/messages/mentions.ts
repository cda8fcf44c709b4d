import { MessageFlags } from "discord-api-types/v10";
import type { AllowedMentions } from "../limits/message.ts";
import { channelPermissions, has } from "../permissions.ts";
import type { Channel, Guild, User, World } from "../world.ts";

export type Mentioned = {
  readonly mentions: readonly User[];
  readonly mentionRoles: readonly string[];
  readonly mentionEveryone: boolean;
  /** Ids of users whose device rings for being mentioned. */
  readonly pinged: readonly string[];
};

const idsIn = (content: string, pattern: RegExp): string[] => [
  ...new Set([...content.matchAll(pattern)].map((match) => match[1] ?? "")),
];

type Speech = {
  readonly channel: Channel;
  readonly author: User;
  readonly content: string;
  readonly allowed: AllowedMentions | undefined;
  readonly repliedTo: User | undefined;
  readonly flags: number;
};

/**
 * Who is mentioned and who is rung (Message resource, "Allowed Mentions Object"): without allowed
 * mentions, everyone named in the content; with them, only those of the parsed kinds or listed ids
 * that are in the content as well. Text in embeds rings nobody.
 */
export function readMentions(world: World, speech: Speech): Mentioned {
  const { channel, author, content, allowed, repliedTo, flags } = speech;
  const guild = world.guilds.get(channel.guildId ?? "");
  const powers = channelPermissions(world, channel, author.id);
  const parses = (kind: "users" | "roles" | "everyone"): boolean =>
    allowed === undefined || (allowed.parse ?? []).includes(kind);

  const users = idsIn(content, /<@!?(\d+)>/g)
    .filter((id) => parses("users") || (allowed?.users ?? []).includes(id))
    .flatMap((id) => world.users.get(id) ?? []);
  if (repliedTo !== undefined && (allowed === undefined || allowed.replied_user === true))
    users.push(repliedTo);

  const roles = idsIn(content, /<@&(\d+)>/g)
    .filter((id) => parses("roles") || (allowed?.roles ?? []).includes(id))
    .flatMap((id) => guild?.roles.get(id) ?? []);
  const loud = roles.filter((role) => role.mentionable || has(powers, "MentionEveryone"));
  const everyone =
    guild !== undefined &&
    /@(everyone|here)\b/.test(content) &&
    parses("everyone") &&
    has(powers, "MentionEveryone");

  const rung = new Set([
    ...users.map(({ id }) => id),
    ...ofRoles(guild, new Set(loud.map(({ id }) => id))),
    ...(everyone ? [...(guild?.members.keys() ?? [])] : []),
  ]);
  rung.delete(author.id);
  const silent = (flags & MessageFlags.SuppressNotifications) !== 0;
  return {
    mentions: [...new Set(users)],
    mentionRoles: roles.map(({ id }) => id),
    mentionEveryone: everyone,
    pinged: silent
      ? []
      : [...rung].filter((id) => has(channelPermissions(world, channel, id), "ViewChannel")),
  };
}

const ofRoles = (guild: Guild | undefined, roles: ReadonlySet<string>): string[] =>
  [...(guild?.members.values() ?? [])]
    .filter((member) => [...member.roles].some((id) => roles.has(id)))
    .map(({ user }) => user.id);
