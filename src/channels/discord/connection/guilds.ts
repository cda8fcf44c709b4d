import type { GatewayGuildCreateDispatchData } from "discord-api-types/v10";
import type { Room } from "../rooms/room.ts";
import type { Rooms } from "../rooms/rooms.ts";
import { maySee, type Overwrite, permissionsIn, type Role } from "../set-up/permissions.ts";
import { cleanOutgoing } from "../words/clean-outgoing.ts";
import { payload } from "../words/message-payload.ts";

/** What befalls benches when channels go, the bot is put out, or is let in again. */
export type Guilds = {
  /** A guild as it is now: at the start, after an outage, or when the bot was invited again. */
  seen(guild: GatewayGuildCreateDispatchData): void;
  /** The bot was put out of a guild. */
  left(guild: string): void;
  /** The guilds of one shard: those that are missing were left while nobody was connected. */
  all(guilds: readonly string[], isOurs: (guild: string) => boolean): void;
  channelGone(channel: string): void;
  /** A channel's name or permissions are others now. */
  channelChanged(
    channel: {
      readonly id: string;
      readonly name: string;
      readonly overwrites: readonly Overwrite[];
    },
    guild: string,
    roles: readonly Role[],
  ): void;
  /** The roles of a guild are others now; a channel that nobody remembers is left alone. */
  rolesChanged(
    guild: string,
    roles: readonly Role[],
    overwritesOf: (channel: string) => readonly Overwrite[] | undefined,
  ): void;
  /** The bench's channel takes nothing from the bot. */
  mayNotWrite(room: Room): void;
};

/** Whoever opened a bench is told of the same trouble this often at most, ms. */
const TOLD_AGAIN = 6 * 3_600_000;

const called = ({ place }: Room): string => `#${cleanOutgoing(place.value.channelName)}`;

export function createGuilds(rooms: Rooms, onFault: (error: unknown) => void): Guilds {
  const told = new Map<string, number>();

  const tellOpener = (room: Room, text: string): void => {
    const now = room.now();
    const key = `${room.key} ${text}`;
    if (now - (told.get(key) ?? Number.NEGATIVE_INFINITY) < TOLD_AGAIN) return;
    told.set(key, now);
    const { openedBy } = room.place.value;
    const post = {
      rank: "other" as const,
      to: { user: openedBy },
      payload: payload(text),
      due: now,
    };
    room.outbox.post([post]).catch(onFault);
  };

  const close = (room: Room, why: "channel deleted" | "bot removed"): void => {
    if (room.place.value.closed !== undefined) return;
    room.place
      .change((value) => ({ ...value, closed: why, statuses: {}, making: {} }))
      .catch(onFault);
    room.outbox.leaveChannel({ tell: why === "channel deleted" });
    if (why === "bot removed") return;
    tellOpener(
      room,
      `The channel ${called(room)} is gone; its bench is kept, with all it knows. Open it in another private channel: /wetside open, option bench. Until then cues go to whoever started the run.`,
    );
  };

  const reopen = (room: Room): void => {
    room.place
      .change((value) => {
        const { closed: _, ...open } = value;
        return open;
      })
      .catch(onFault);
    room.refresh();
  };

  const seen = (guild: GatewayGuildCreateDispatchData): void => {
    if (guild.unavailable === true) return;
    for (const room of rooms.all()) {
      const { value } = room.place;
      if (value.guild !== guild.id) continue;
      const channel = guild.channels.find(({ id }) => id === value.channel);
      if (channel === undefined) {
        if (value.closed === undefined) close(room, "channel deleted");
        continue;
      }
      const overwrites =
        "permission_overwrites" in channel ? (channel.permission_overwrites ?? []) : [];
      const isPublic = maySee(permissionsIn(guild.id, guild.roles, overwrites));
      if (isPublic) exposed(room);
      else if (value.closed === "bot removed") reopen(room);
    }
  };

  const exposed = (room: Room): void => {
    if (room.place.value.closed !== undefined) return;
    tellOpener(
      room,
      `Everyone in the server can see ${called(room)} now, where a bench is open. Make it private again, or say /wetside close there. I still answer its members only.`,
    );
  };

  return {
    seen,
    left(guild) {
      for (const room of rooms.all()) {
        if (room.place.value.guild === guild) close(room, "bot removed");
      }
    },
    all(guilds, isOurs) {
      for (const room of rooms.all()) {
        const { guild } = room.place.value;
        if (isOurs(guild) && !guilds.includes(guild)) close(room, "bot removed");
      }
    },
    channelChanged({ id, name, overwrites }, guild, roles) {
      const room = rooms.inChannel(id);
      if (room === undefined) return;
      if (name !== "" && name !== room.place.value.channelName) {
        room.place.change((value) => ({ ...value, channelName: name })).catch(onFault);
      }
      if (maySee(permissionsIn(guild, roles, overwrites))) exposed(room);
      room.refresh();
    },
    rolesChanged(guild, roles, overwritesOf) {
      for (const room of rooms.inGuild(guild)) {
        const overwrites = overwritesOf(room.place.value.channel);
        if (overwrites === undefined) continue;
        if (maySee(permissionsIn(guild, roles, overwrites))) exposed(room);
      }
    },
    channelGone(channel) {
      const room = rooms.inChannel(channel);
      if (room !== undefined) close(room, "channel deleted");
    },
    mayNotWrite: (room) =>
      tellOpener(
        room,
        `I may not write in ${called(room)} any more. Allow me View Channel and Send Messages there; cues go to whoever started the run until then.`,
      ),
  };
}
