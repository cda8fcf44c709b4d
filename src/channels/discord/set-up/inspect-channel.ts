import { ChannelType, Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "../delivery/api.ts";
import { maySee, type Overwrite, permissionsIn, type Role } from "./permissions.ts";

const overwriteSchema = z.object({ id: z.string(), allow: z.string(), deny: z.string() });
const channelSchema = z.object({
  id: z.string(),
  type: z.number(),
  name: z.string().nullish(),
  guild_id: z.string().optional(),
  permission_overwrites: z.array(overwriteSchema).default([]),
});
const rolesSchema = z.array(
  z.object({ id: z.string(), name: z.string(), permissions: z.string() }),
);
const memberSchema = z.object({ roles: z.array(z.string()) });

export type Inspected = {
  readonly guild: string;
  readonly name: string;
  readonly type: ChannelType;
  readonly isText: boolean;
  /** Everybody in the guild sees it. */
  readonly isPublic: boolean;
  /** Roles, beside @everyone, whose people see it, by name. */
  readonly seenBy: readonly string[];
  /** What the bot may do there. */
  readonly mine: bigint;
};

/** Looks at a channel as it is now. @throws when it cannot be reached or is not the bot's to see */
export async function inspectChannel(api: Api, channel: string, bot: string): Promise<Inspected> {
  const found = channelSchema.parse(await api.call("get", Routes.channel(channel) as `/${string}`));
  const guild = found.guild_id ?? "";
  const roles = rolesSchema.parse(await api.call("get", Routes.guildRoles(guild)));
  const me = memberSchema.parse(await api.call("get", Routes.guildMember(guild, bot)));
  const { permission_overwrites: overwrites } = found;
  return {
    guild,
    name: found.name ?? "",
    type: found.type,
    isText: found.type === ChannelType.GuildText,
    isPublic: maySee(permissionsIn(guild, roles, overwrites)),
    seenBy: roles
      .filter(({ id }) => id !== guild && !me.roles.includes(id))
      .filter((role) => seenByRole(guild, roles, overwrites, role))
      .map(({ name }) => name),
    mine: permissionsIn(guild, roles, overwrites, { id: bot, roles: me.roles }),
  };
}

const seenByRole = (
  guild: string,
  roles: readonly Role[],
  overwrites: readonly Overwrite[],
  { id }: Role,
): boolean => maySee(permissionsIn(guild, roles, overwrites, { id: "", roles: [id] }));
