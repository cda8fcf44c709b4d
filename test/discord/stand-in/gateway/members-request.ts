import { GatewayIntentBits } from "discord-api-types/v10";
import { z } from "zod";
import { memberView } from "../views/user.ts";
import type { Close, Gateway } from "./gateway.ts";
import { dispatch, type Session } from "./session.ts";

const membersRequest = z.strictObject({
  guild_id: z.string(),
  query: z.string().optional(),
  limit: z.int().min(0).optional(),
  user_ids: z.union([z.string(), z.array(z.string()).max(100)]).optional(),
  presences: z.boolean().optional(),
  nonce: z.string().max(32).optional(),
});

/** Request Guild Members: all of them needs the members intent. */
export function takeMembersRequest(
  gateway: Gateway,
  session: Session,
  d: unknown,
  close: Close,
): void {
  const read = membersRequest.safeParse(d);
  if (!read.success) {
    close(4002, "Members request unreadable.");
    return;
  }
  const { guild_id, query, limit = 0, user_ids, nonce } = read.data;
  const all = query === "" && limit === 0;
  if (all && (session.intents & GatewayIntentBits.GuildMembers) === 0) {
    close(4014, "Members intent needed.");
    return;
  }
  const ids = user_ids === undefined ? undefined : [user_ids].flat();
  const guild = gateway.world.guilds.get(guild_id);
  const members = [...(guild?.members.values() ?? [])].filter(
    ({ user, nick }) =>
      ids?.includes(user.id) ??
      (nick ?? user.name).toLowerCase().startsWith((query ?? "").toLowerCase()),
  );
  dispatch(session, "GUILD_MEMBERS_CHUNK", {
    guild_id,
    members: (limit > 0 ? members.slice(0, limit) : members).map(memberView),
    chunk_index: 0,
    chunk_count: 1,
    not_found: (ids ?? []).filter((id) => guild?.members.has(id) !== true),
    ...(nonce === undefined ? {} : { nonce }),
  });
}
