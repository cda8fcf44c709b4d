import type { Room } from "./room.ts";

/** The benches that are open in Discord, by what they are asked for. */
export class Rooms {
  readonly #rooms = new Map<string, Room>();

  /** By each member who is named, the benches where they are: asked for at every direct message. */
  #byMember: Map<string, Room[]> | undefined;

  add(room: Room): void {
    this.#rooms.set(room.key, room);
    this.#byMember = undefined;
    room.place.watch((now, before) => {
      if (now.members !== before.members) this.#byMember = undefined;
    });
  }

  /** The benches, open or closed, that name this person among their members. */
  ofMember(person: string): readonly Room[] {
    this.#byMember ??= this.#sorted();
    return this.#byMember.get(person) ?? [];
  }

  #sorted(): Map<string, Room[]> {
    const by = new Map<string, Room[]>();
    for (const room of this.#rooms.values()) {
      for (const id of Object.keys(room.place.value.members)) {
        const rooms = by.get(id) ?? [];
        rooms.push(room);
        by.set(id, rooms);
      }
    }
    return by;
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
