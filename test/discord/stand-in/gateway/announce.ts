import { shardOf } from "../time-and-ids.ts";
import type { Announcement } from "../world.ts";
import { dispatch, type Session } from "./session.ts";

/**
 * Sends an event to the sessions that may hear of it: the guild's shard, or the first one for what
 * happens outside guilds (Gateway, "Sharding"), with one of its intents, as far as permissions go.
 * @returns how many of them have a socket
 */
export function announce(sessions: Iterable<Session>, event: Announcement): number {
  let heard = 0;
  for (const session of sessions) {
    const { application, intents, shard } = session;
    if (event.only !== undefined && event.only !== application) continue;
    const [which, count] = shard;
    if (which !== (event.guildId === undefined ? 0 : shardOf(event.guildId, count))) continue;
    if (event.intents !== 0 && (event.intents & intents) === 0) continue;
    if (event.heardBy !== undefined && !event.heardBy(application)) continue;
    dispatch(session, event.t, event.data(application, intents));
    if (session.connection !== undefined) heard += 1;
  }
  return heard;
}
