import { GatewayIntentBits } from "discord-api-types/v10";
import type { Gateway } from "./gateway/gateway.ts";
import type { Sockets } from "./gateway/serve.ts";
import { closeConnection } from "./gateway/session.ts";
import { deleteMessage } from "./messages/post.ts";
import { type ChannelHandle, channelHandle } from "./people/channel-handle.ts";
import { addBot, addChannel, announceGuild, roleCalled } from "./people/found-guild.ts";
import type { ChannelSpec } from "./people/guild-spec.ts";
import { setOverwrite } from "./people/overwrites.ts";
import { bits, type PermissionName } from "./permissions.ts";
import { channelView, roleView } from "./views/guild.ts";
import { memberView, userView } from "./views/user.ts";
import type { Channel, Guild, World } from "./world.ts";

type Named = { readonly id: string } | string;

/** What administrators do to a bot, and what befalls it. */
export type Mischief = {
  /** The token serves no more: REST answers 401 and the sockets close with 4004. */
  revokeToken(token?: string): void;
  /** Removes the bot from a guild. */
  kickBot(guild: Named): void;
  /** Invites it (again). */
  inviteBot(guild: Named, permissions?: readonly PermissionName[]): void;
  /** The guild is unavailable for a while: an outage, not a removal; then it is back. */
  outage(guild: Named): void;
  recover(guild: Named): void;
  deleteChannel(channel: Named): void;
  addChannel(guild: Named, spec: ChannelSpec): ChannelHandle;
  deleteMessage(message: { readonly id: string }): void;
  /** Takes permissions in a channel from the bot, or from a role or member by name. */
  denyPermission(channel: Named, names: readonly PermissionName[], from?: string): void;
  allowPermission(channel: Named, names: readonly PermissionName[], to?: string): void;
  /** Gives a member a role, or takes it. */
  giveRole(guild: Named, member: string, role: string): void;
  takeRole(guild: Named, member: string, role: string): void;
  removeMember(guild: Named, member: string): void;
  /** Sets what a role may do everywhere; the bot's own role bears its name. */
  setRole(guild: Named, role: string, permissions: readonly PermissionName[]): void;
};

export function createMischief(world: World, gateway: Gateway, sockets: Sockets): Mischief {
  const guildOf = (named: Named): Guild => {
    const wanted = typeof named === "string" ? named : named.id;
    const guild = [...world.guilds.values()].find(
      ({ id, name }) => id === wanted || name === wanted,
    );
    if (guild === undefined) throw new Error(`No guild ${wanted}`);
    return guild;
  };
  const channelOf = (named: Named): Channel => {
    const wanted = typeof named === "string" ? named : named.id;
    const channel = [...world.channels.values()].find(
      ({ id, name }) => id === wanted || name === wanted,
    );
    if (channel === undefined) throw new Error(`No channel ${wanted}`);
    return channel;
  };
  const memberOf = (guild: Guild, name: string) => {
    const member = [...guild.members.values()].find(
      ({ user }) => user.name === name || user.id === name,
    );
    if (member === undefined) throw new Error(`Nobody called ${name} in ${guild.name}`);
    return member;
  };
  const tellChannel = (t: string, channel: Channel): void => {
    world.announce({
      t,
      guildId: channel.guildId,
      intents: GatewayIntentBits.Guilds,
      heardBy: ({ bot }) => world.guilds.get(channel.guildId ?? "")?.members.has(bot.id) === true,
      data: () => channelView(channel),
    });
  };
  const tellMember = (guild: Guild, name: string): void => {
    const member = memberOf(guild, name);
    world.announce({
      t: "GUILD_MEMBER_UPDATE",
      guildId: guild.id,
      // A bot hears of its own changes without the intent (Gateway, "Caveats").
      intents: member.user.bot ? 0 : GatewayIntentBits.GuildMembers,
      heardBy: ({ bot }) => guild.members.has(bot.id),
      data: () => ({ ...memberView(member), guild_id: guild.id }),
    });
  };
  const overwrite = (
    named: Named,
    who: string,
    what: { allow?: readonly PermissionName[]; deny?: readonly PermissionName[] },
  ): void => {
    const channel = channelOf(named);
    setOverwrite(world, channel, { for: who, ...what });
    tellChannel("CHANNEL_UPDATE", channel);
  };

  return {
    revokeToken(token) {
      const wanted = token ?? [...world.applications.keys()][0] ?? "";
      const application = world.applications.get(wanted);
      world.applications.delete(wanted);
      for (const connection of sockets.open)
        if (connection.session?.application === application)
          closeConnection(connection, 4004, "Authentication failed.");
      for (const [id, session] of gateway.sessions)
        if (session.application === application) gateway.sessions.delete(id);
    },
    kickBot(named) {
      const guild = guildOf(named);
      for (const application of new Set(world.applications.values())) {
        if (!guild.members.delete(application.bot.id)) continue;
        for (const role of guild.roles.values())
          if (role.botId === application.bot.id) guild.roles.delete(role.id);
        world.announce({
          t: "GUILD_DELETE",
          guildId: guild.id,
          only: application,
          intents: GatewayIntentBits.Guilds,
          data: () => ({ id: guild.id }),
        });
      }
    },
    inviteBot(named, permissions = []) {
      const guild = guildOf(named);
      for (const application of new Set(world.applications.values()))
        if (!guild.members.has(application.bot.id)) addBot(world, guild, application, permissions);
      announceGuild(world, guild);
    },
    outage(named) {
      const { id, members } = guildOf(named);
      world.announce({
        t: "GUILD_DELETE",
        guildId: id,
        intents: GatewayIntentBits.Guilds,
        heardBy: ({ bot }) => members.has(bot.id),
        data: () => ({ id, unavailable: true }),
      });
    },
    recover: (named) => announceGuild(world, guildOf(named)),
    deleteChannel(named) {
      const channel = channelOf(named);
      world.channels.delete(channel.id);
      world.guilds.get(channel.guildId ?? "")?.channelIds.delete(channel.id);
      tellChannel("CHANNEL_DELETE", channel);
    },
    addChannel(named, spec) {
      const channel = addChannel(world, guildOf(named), spec);
      tellChannel("CHANNEL_CREATE", channel);
      return channelHandle(world, channel);
    },
    deleteMessage({ id }) {
      for (const channel of world.channels.values())
        for (const message of channel.messages) {
          if (message.id === id) deleteMessage(world, message);
        }
    },
    denyPermission: (channel, deny, from = "bot") => overwrite(channel, from, { deny }),
    allowPermission: (channel, allow, to = "bot") => overwrite(channel, to, { allow }),
    giveRole(named, member, role) {
      const guild = guildOf(named);
      memberOf(guild, member).roles.add(roleCalled(guild, role).id);
      tellMember(guild, member);
    },
    takeRole(named, member, role) {
      const guild = guildOf(named);
      memberOf(guild, member).roles.delete(roleCalled(guild, role).id);
      tellMember(guild, member);
    },
    setRole(named, name, permissions) {
      const guild = guildOf(named);
      const role = roleCalled(guild, name);
      role.permissions = bits(permissions);
      world.announce({
        t: "GUILD_ROLE_UPDATE",
        guildId: guild.id,
        intents: GatewayIntentBits.Guilds,
        heardBy: ({ bot }) => guild.members.has(bot.id),
        data: () => ({ guild_id: guild.id, role: roleView(role) }),
      });
    },
    removeMember(named, name) {
      const guild = guildOf(named);
      const { user } = memberOf(guild, name);
      guild.members.delete(user.id);
      world.announce({
        t: "GUILD_MEMBER_REMOVE",
        guildId: guild.id,
        intents: GatewayIntentBits.GuildMembers,
        heardBy: ({ bot }) => guild.members.has(bot.id),
        data: () => ({ guild_id: guild.id, user: userView(user) }),
      });
    },
  };
}
