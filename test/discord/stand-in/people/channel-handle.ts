import type { Channel, World } from "../world.ts";
import { type Posted, posted } from "./posted.ts";

/** A channel as tests look at it. */
export type ChannelHandle = {
  readonly id: string;
  readonly name: string;
  /** What all its members see, oldest first: neither deleted nor for one user only. */
  readonly messages: readonly Posted[];
  /** Everything ever posted, deleted and private included. */
  readonly everything: readonly Posted[];
  /** How often the bot showed that it types. */
  readonly typing: number;
};

export const channelHandle = (world: World, channel: Channel): ChannelHandle => ({
  id: channel.id,
  name: channel.name,
  get messages() {
    return channel.messages
      .filter(({ deletedAt, onlyFor }) => deletedAt === undefined && onlyFor === undefined)
      .map((message) => posted(world, message));
  },
  get everything() {
    return channel.messages.map((message) => posted(world, message));
  },
  get typing() {
    return channel.typing.length;
  },
});
