import { bits } from "../permissions.ts";
import type { Channel, Guild, Overwrite, World } from "../world.ts";
import type { OverwriteSpec } from "./guild-spec.ts";

/** Sets what one role or member may do in a channel, on top of what was set before. */
export function setOverwrite(world: World, channel: Channel, spec: OverwriteSpec): void {
  const guild = world.guilds.get(channel.guildId ?? "");
  if (guild === undefined) throw new Error("Only a guild's channel has overwrites");
  for (const { id, type } of holders(world, guild, spec.for)) {
    const before = channel.overwrites.get(id) ?? { id, type, allow: 0n, deny: 0n };
    const allow = bits(spec.allow ?? []);
    const deny = bits(spec.deny ?? []);
    channel.overwrites.set(id, {
      ...before,
      allow: (before.allow & ~deny) | allow,
      deny: (before.deny & ~allow) | deny,
    });
  }
}

function holders(world: World, guild: Guild, name: string): Pick<Overwrite, "id" | "type">[] {
  if (name === "bot")
    return [...new Set(world.applications.values())].map(({ bot }) => ({ id: bot.id, type: 1 }));
  const role = [...guild.roles.values()].find((one) => one.name === name || one.id === name);
  if (role !== undefined) return [{ id: role.id, type: 0 }];
  const member = [...guild.members.values()].find(
    ({ user }) => user.name === name || user.id === name,
  );
  if (member === undefined) throw new Error(`Nobody called ${name} in ${guild.name}`);
  return [{ id: member.user.id, type: 1 }];
}
