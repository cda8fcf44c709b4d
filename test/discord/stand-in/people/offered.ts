import { channelPermissions, guildPermissions, has } from "../permissions.ts";
import type { Application, Channel, User, World } from "../world.ts";
import { commandCalled } from "./slash-data.ts";

/** A command the user's program would not offer: by its member permissions, or outside its contexts. */
export function refuseCommand(
  world: World,
  application: Application,
  user: User,
  channel: Channel,
  line: string,
): void {
  const [name = ""] = line.replace(/^\//, "").split(" ");
  const found = commandCalled(application, channel.guildId, name);
  const guild = world.guilds.get(channel.guildId ?? "");
  if (guild !== undefined && !guild.members.has(application.bot.id))
    throw new Error(`Not offered: the bot is not in ${guild.name}`);
  const contexts = found.contexts ?? [0, 1, 2];
  if (!contexts.includes(guild === undefined ? 1 : 0))
    throw new Error(`Not offered: /${name} is not for here`);
  if (!has(channelPermissions(world, channel, user.id), "UseApplicationCommands"))
    throw new Error(`Not offered: ${user.name} may use no commands here`);
  const member = guild?.members.get(user.id);
  const needed = found.default_member_permissions;
  if (guild === undefined || member === undefined || needed === null) return;
  const all = guildPermissions(guild, member);
  const lacks = (all & BigInt(needed)) !== BigInt(needed) || BigInt(needed) === 0n;
  if (lacks && !has(all, "Administrator"))
    throw new Error(`Not offered: ${user.name} lacks the permissions for /${name}`);
}
