import type { Client } from "discord.js";
import { mayManage, permissionsIn } from "../set-up/permissions.ts";

/**
 * Whether somebody may manage a server; for messages, which come without what their writer may do.
 * Where the server or their roles are not known, nobody but its owner may.
 */
export type Manages = (
  guild: string,
  user: string,
  roles: readonly string[] | undefined,
) => boolean;

/** By the roles of servers as the library remembers them. */
export const managesBy =
  ({ guilds }: Client): Manages =>
  (guild, user, held = []) => {
    const known = guilds.cache.get(guild);
    if (known === undefined) return false;
    if (known.ownerId === user) return true;
    const roles = [...known.roles.cache.values()].map(({ id, permissions }) => ({
      id,
      permissions: String(permissions.bitfield),
    }));
    return mayManage(permissionsIn(guild, roles, [], { id: user, roles: held }));
  };
