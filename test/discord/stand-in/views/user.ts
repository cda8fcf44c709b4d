import type {
  APIGuildMember,
  APIInteractionGuildMember,
  APIUser,
  GuildMemberFlags,
} from "discord-api-types/v10";
import type { Member, User } from "../world.ts";

export const userView = (user: User): APIUser => ({
  id: user.id,
  username: user.username,
  discriminator: "0",
  global_name: user.bot ? null : user.name,
  avatar: null,
  ...(user.bot ? { bot: true } : {}),
});

/** A member without its user, as in a message event. */
export const bareMemberView = (member: Member): Omit<APIGuildMember, "user"> => ({
  nick: member.nick ?? null,
  roles: [...member.roles],
  joined_at: new Date(member.joinedAt).toISOString(),
  deaf: false,
  mute: false,
  flags: 0 as GuildMemberFlags,
});

export const memberView = (member: Member): APIGuildMember => ({
  ...bareMemberView(member),
  user: userView(member.user),
});

export const actingMemberView = (
  member: Member,
  permissions: bigint,
): APIInteractionGuildMember => ({
  ...memberView(member),
  user: userView(member.user),
  permissions: String(permissions),
});
