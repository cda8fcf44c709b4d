import {
  type APIApplicationCommand,
  type APIApplicationCommandOption,
  ApplicationCommandOptionType as Type,
} from "discord-api-types/v10";
import { channelView, roleView } from "../views/guild.ts";
import { userView } from "../views/user.ts";
import type { Application, Guild, World } from "../world.ts";

export type OptionValue = string | number | boolean;
export type Options = Readonly<Record<string, OptionValue>>;

/** The command a user picks: the guild's own before the global one of that name. */
export function commandCalled(
  application: Application,
  guildId: string | undefined,
  name: string,
): APIApplicationCommand {
  const found = [guildId, "global"]
    .flatMap((scope) => application.commands.get(scope ?? "") ?? [])
    .find((command) => command.name === name);
  if (found === undefined) throw new Error(`Not offered: /${name} is not registered`);
  return found;
}

type Branch = { readonly path: readonly string[]; readonly options: APIApplicationCommandOption[] };

/** Walks "name group sub" to the options at its end. */
function branchOf(command: APIApplicationCommand, path: readonly string[]): Branch {
  let options = command.options ?? [];
  for (const step of path) {
    const next = options.find(
      ({ name, type }) =>
        name === step && (type === Type.Subcommand || type === Type.SubcommandGroup),
    );
    if (next === undefined) throw new Error(`Not offered: /${command.name} ${path.join(" ")}`);
    options = ("options" in next ? next.options : undefined) ?? [];
  }
  if (options.some(({ type }) => type === Type.Subcommand || type === Type.SubcommandGroup))
    throw new Error(`Not offered: /${command.name} ${path.join(" ")} needs a subcommand`);
  return { path, options };
}

/** What the user's own program refuses before anything is sent. */
function checkValue(
  option: APIApplicationCommandOption,
  value: OptionValue,
  typing: boolean,
): void {
  const refuse = (why: string): never => {
    throw new Error(`Not offered: ${option.name}: ${why}`);
  };
  switch (option.type) {
    case Type.String:
      if (typeof value !== "string") {
        refuse("text wanted");
        return;
      }
      if (typing) return;
      if (value.length < (option.min_length ?? 0)) refuse("too short");
      if (value.length > (option.max_length ?? 6000)) refuse("too long");
      if (option.choices?.length && !option.choices.some((one) => one.value === value))
        refuse(`not a choice: ${value}`);
      return;
    case Type.Integer:
    case Type.Number:
      if (typing) return;
      if (typeof value !== "number") {
        refuse("a number wanted");
        return;
      }
      if (option.type === Type.Integer && !Number.isInteger(value)) refuse("a whole number wanted");
      if (value < (option.min_value ?? -Infinity)) refuse("too small");
      if (value > (option.max_value ?? Infinity)) refuse("too large");
      if (option.choices?.length && !option.choices.some((one) => one.value === value))
        refuse(`not a choice: ${value}`);
      return;
    case Type.Boolean:
      if (typeof value !== "boolean") refuse("yes or no wanted");
      return;
    default:
      if (typeof value !== "string") refuse("an id wanted");
  }
}

export type Typed = { readonly option: string; readonly typed: string };

/**
 * The data of a slash command as sent (Interactions, "Application Command Data Structure").
 * @throws when the user's program would not offer it, or an option does not fit its definition
 */
export function slashData(
  world: World,
  application: Application,
  guild: Guild | undefined,
  line: string,
  given: Options,
  typing?: Typed,
): object {
  const [name = "", ...path] = line.replace(/^\//, "").split(" ");
  const command = commandCalled(application, guild?.id, name);
  const branch = branchOf(command, path);
  for (const key of Object.keys(given))
    if (!branch.options.some((option) => option.name === key))
      throw new Error(`Not offered: /${line} has no option ${key}`);
  const values = branch.options.flatMap((option) => {
    const focused = typing?.option === option.name;
    const value = focused ? typing.typed : given[option.name];
    if (value === undefined) {
      if (typing === undefined && "required" in option && option.required === true)
        throw new Error(`Not offered: ${option.name} is required`);
      return [];
    }
    if (focused && !("autocomplete" in option && option.autocomplete === true))
      throw new Error(`Not offered: ${option.name} completes nothing`);
    checkValue(option, value, focused);
    return [{ name: option.name, type: option.type, value, ...(focused ? { focused } : {}) }];
  });
  const nested = nest(command, path, values);
  return {
    id: command.id,
    name: command.name,
    type: 1,
    ...(nested.length === 0 ? {} : { options: nested }),
    ...resolve(world, guild, values),
    ...(command.guild_id === undefined ? {} : { guild_id: command.guild_id }),
  };
}

function nest(
  command: APIApplicationCommand,
  path: readonly string[],
  values: readonly object[],
): readonly object[] {
  const [step, ...rest] = path;
  if (step === undefined) return values;
  const option = command.options?.find(({ name }) => name === step);
  const under = { ...command, options: option && "options" in option ? option.options : [] };
  const inner = nest(under as APIApplicationCommand, rest, values);
  return [{ name: step, type: option?.type, options: inner }];
}

type Value = { readonly type: Type; readonly value: OptionValue };

/** Users, roles and channels chosen travel along ("Resolved Data Structure"). */
function resolve(world: World, guild: Guild | undefined, values: readonly Value[]): object {
  const ids = (...types: Type[]): string[] =>
    values.filter(({ type }) => types.includes(type)).map(({ value }) => String(value));
  const table = (found: readonly (readonly [string, object | undefined])[]): object =>
    Object.fromEntries(found.filter(([, one]) => one !== undefined));
  const users = ids(Type.User, Type.Mentionable).map((id) => {
    const user = world.users.get(id);
    return [id, user === undefined ? undefined : userView(user)] as const;
  });
  const members = users.map(([id]) => {
    const member = guild?.members.get(id);
    return [
      id,
      member === undefined
        ? undefined
        : { nick: member.nick ?? null, roles: [...member.roles], permissions: "0", flags: 0 },
    ] as const;
  });
  const roles = ids(Type.Role, Type.Mentionable).map((id) => {
    const role = guild?.roles.get(id);
    return [id, role === undefined ? undefined : roleView(role)] as const;
  });
  const channels = ids(Type.Channel).map((id) => {
    const channel = world.channels.get(id);
    return [
      id,
      channel === undefined ? undefined : { ...channelView(channel), permissions: "0" },
    ] as const;
  });
  if (users.length + roles.length + channels.length === 0) return {};
  return {
    resolved: {
      users: table(users),
      members: table(members),
      roles: table(roles),
      channels: table(channels),
    },
  };
}
