import { channelPermissions, has, type PermissionName } from "../permissions.ts";
import type { Channel, Guild, Message } from "../world.ts";
import { type Call, caller } from "./call.ts";
import { refusals } from "./refusal.ts";

/** The channel of the path, which the bot must see. @throws Refusal 10003, 50001 */
export function channelOf(call: Call): Channel {
  const { bot } = caller(call);
  const channel = call.world.channels.get(call.params.channel ?? "");
  if (channel === undefined) throw refusals.unknownChannel();
  if (!has(channelPermissions(call.world, channel, bot.id), "ViewChannel"))
    throw refusals.missingAccess();
  return channel;
}

/** @throws Refusal 50013 when the bot lacks one of them in the channel */
export function need(call: Call, channel: Channel, ...names: PermissionName[]): void {
  const all = channelPermissions(call.world, channel, caller(call).bot.id);
  if (names.some((name) => !has(all, name))) throw refusals.missingPermissions();
}

/** The message of the path, as the bot's token reaches it: none that only a user sees. */
export function messageOf(call: Call, channel: Channel): Message {
  const message = channel.messages.find(({ id }) => id === call.params.message);
  if (message === undefined || message.deletedAt !== undefined || message.onlyFor !== undefined)
    throw refusals.unknownMessage();
  return message;
}

/** The guild of the path, which the bot must be in. @throws Refusal 10004, 50001 */
export function guildOf(call: Call): Guild {
  const { bot } = caller(call);
  const guild = call.world.guilds.get(call.params.guild ?? "");
  if (guild === undefined) throw refusals.unknownGuild();
  if (!guild.members.has(bot.id)) throw refusals.missingAccess();
  return guild;
}
