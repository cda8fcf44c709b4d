import { GatewayIntentBits } from "discord-api-types/v10";
import { bits, type PermissionName } from "../permissions.ts";
import { guildCreateView } from "../views/guild.ts";
import type { Application, Channel, Guild, Role, User, World } from "../world.ts";
import type { ChannelSpec, GuildSpec } from "./guild-spec.ts";
import { setOverwrite } from "./overwrites.ts";

/** What a new server lets everyone do (from memory). */
const ORDINARY: readonly PermissionName[] = [
  "ViewChannel",
  "SendMessages",
  "EmbedLinks",
  "AttachFiles",
  "ReadMessageHistory",
  "AddReactions",
  "UseExternalEmojis",
  "UseApplicationCommands",
  "Connect",
  "Speak",
  "ChangeNickname",
  "CreateInstantInvite",
];

const DAY = 86_400_000;
const TYPES = { text: 0, voice: 2, category: 4 } as const;

export function makeUser(world: World, name: string, bot = false): User {
  const user: User = {
    id: world.ids.past(400 * DAY),
    username: name.toLowerCase().replace(/[^a-z0-9_.]+/g, "_") || "user",
    name,
    bot,
    closed: false,
  };
  world.users.set(user.id, user);
  return user;
}

/** Founds a guild some days ago, with its people; each application is invited unless told. */
export function foundGuild(world: World, spec: GuildSpec): Guild {
  const id = spec.id ?? world.ids.past(30 * DAY);
  const people = (spec.members ?? []).map((one) => (typeof one === "string" ? { name: one } : one));
  const users = people.map(({ name }) => userCalled(world, name));
  const owner =
    users[people.findIndex((one) => "owner" in one && one.owner === true)] ??
    makeUser(world, `Owner of ${spec.name}`);
  const guild: Guild = {
    id,
    name: spec.name,
    ownerId: owner.id,
    roles: new Map(),
    members: new Map(),
    channelIds: new Set(),
  };
  world.guilds.set(id, guild);
  addRole(world, guild, { name: "@everyone", permissions: spec.everyone ?? ORDINARY }, id);
  for (const role of spec.roles ?? []) addRole(world, guild, role);
  addMember(world, guild, owner, []);
  people.forEach((one, index) => {
    const user = users[index];
    if (user === undefined) return;
    const member = addMember(world, guild, user, "roles" in one ? (one.roles ?? []) : []);
    member.nick = "nick" in one ? one.nick : undefined;
  });
  const { bot = {} } = spec;
  if (bot !== false)
    for (const application of new Set(world.applications.values()))
      addBot(world, guild, application, bot.permissions ?? []);
  for (const channel of spec.channels ?? ["general"])
    addChannel(world, guild, typeof channel === "string" ? { name: channel } : channel);
  return guild;
}

/** The person of that name, in several guilds at once perhaps. */
function userCalled(world: World, name: string): User {
  const known = [...world.users.values()].find((user) => !user.bot && user.name === name);
  return known ?? makeUser(world, name);
}

export function addRole(
  world: World,
  guild: Guild,
  spec: {
    readonly name: string;
    readonly permissions?: readonly PermissionName[];
    readonly mentionable?: boolean;
  },
  id = world.ids.past(20 * DAY),
  botId?: string,
): Role {
  const role: Role = {
    id,
    name: spec.name,
    permissions: bits(spec.permissions ?? []),
    position: guild.roles.size,
    mentionable: spec.mentionable ?? false,
    botId,
  };
  guild.roles.set(id, role);
  return role;
}

export function roleCalled(guild: Guild, name: string): Role {
  const role = [...guild.roles.values()].find((one) => one.name === name || one.id === name);
  if (role === undefined) throw new Error(`No role ${name} in ${guild.name}`);
  return role;
}

function addMember(world: World, guild: Guild, user: User, roles: readonly string[]) {
  const member = {
    user,
    nick: undefined as string | undefined,
    roles: new Set(roles.map((name) => roleCalled(guild, name).id)),
    joinedAt: world.now() - 10 * DAY,
  };
  guild.members.set(user.id, member);
  return member;
}

/** Invites a bot: it comes with a role of its own, named after it. */
export function addBot(
  world: World,
  guild: Guild,
  application: Application,
  permissions: readonly PermissionName[],
): void {
  const { bot, name } = application;
  const role = addRole(world, guild, { name, permissions }, undefined, bot.id);
  addMember(world, guild, bot, []).roles.add(role.id);
}

/** Tells the bot that it has been invited, as a running one hears it. */
export function announceGuild(world: World, guild: Guild): void {
  world.announce({
    t: "GUILD_CREATE",
    guildId: guild.id,
    intents: GatewayIntentBits.Guilds,
    heardBy: ({ bot }) => guild.members.has(bot.id),
    data: (application, intents) =>
      guildCreateView(world, guild, application, (intents & GatewayIntentBits.GuildMembers) !== 0),
  });
}

export function addChannel(world: World, guild: Guild, spec: ChannelSpec): Channel {
  const channel: Channel = {
    id: world.ids.past(15 * DAY),
    name: spec.name,
    type: TYPES[spec.type ?? "text"],
    guildId: guild.id,
    overwrites: new Map(),
    recipients: [],
    messages: [],
    oldEdits: [],
    typing: [],
  };
  for (const overwrite of spec.overwrites ?? []) setOverwrite(world, channel, overwrite);
  world.channels.set(channel.id, channel);
  guild.channelIds.add(channel.id);
  return channel;
}
