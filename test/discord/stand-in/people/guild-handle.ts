import type { Guild } from "../world.ts";
import { type ChannelHandle, channelHandle } from "./channel-handle.ts";
import { roleCalled } from "./found-guild.ts";
import { type Person, person, type Surroundings } from "./person.ts";

export type GuildHandle = {
  readonly id: string;
  readonly name: string;
  member(name: string): Person;
  channel(name: string): ChannelHandle;
  /** A role's id, and how to write it into a message. */
  role(name: string): { readonly id: string; readonly mention: string };
};

export const guildHandle = (around: Surroundings, guild: Guild): GuildHandle => ({
  id: guild.id,
  name: guild.name,
  member(name) {
    const found = [...guild.members.values()].find(({ user }) => user.name === name);
    if (found === undefined) throw new Error(`Nobody called ${name} in ${guild.name}`);
    return person(around, found.user);
  },
  channel(name) {
    const channel = [...guild.channelIds]
      .flatMap((id) => around.world.channels.get(id) ?? [])
      .find((one) => one.name === name);
    if (channel === undefined) throw new Error(`No channel ${name} in ${guild.name}`);
    return channelHandle(around.world, channel);
  },
  role(name) {
    const { id } = roleCalled(guild, name);
    return { id, mention: `<@&${id}>` };
  },
});
