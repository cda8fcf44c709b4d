import type { Room } from "./room.ts";

/** The benches that are open in Discord, by what they are asked for. */
export class Rooms {
  readonly #rooms = new Map<string, Room>();

  add(room: Room): void {
    this.#rooms.set(room.key, room);
  }

  all(): readonly Room[] {
    return [...this.#rooms.values()];
  }

  /** The same without a list of them: there may be a thousand. */
  each(): Iterable<Room> {
    return this.#rooms.values();
  }

  byKey(key: string): Room | undefined {
    return this.#rooms.get(key);
  }

  /** The bench that is open in a channel. */
  inChannel(channel: string): Room | undefined {
    // Most benches are called after the channel they were opened in.
    const usual = this.#rooms.get(keyOf(channel));
    if (usual !== undefined && isIn(usual, channel)) return usual;
    return this.all().find((room) => isIn(room, channel));
  }

  /** The open benches of a guild. */
  inGuild(guild: string): readonly Room[] {
    return this.all().filter(
      ({ place: { value } }) => value.guild === guild && value.closed === undefined,
    );
  }
}

const isIn = ({ place: { value } }: Room, channel: string): boolean =>
  value.channel === channel && value.closed === undefined;

/** What a bench opened in a channel is called, in the store and in its buttons. */
export const keyOf = (channel: string): string => `c${channel}`;
