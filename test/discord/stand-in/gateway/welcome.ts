import { ApplicationFlags, GatewayIntentBits } from "discord-api-types/v10";
import { guildCreateView } from "../views/guild.ts";
import type { Hosts } from "../views/message.ts";
import { userView } from "../views/user.ts";
import type { World } from "../world.ts";
import { guildsOf } from "./identify.ts";
import { dispatch, type Session } from "./session.ts";

/** Ready, and then each guild, first named as unavailable (Gateway Events, "Ready"). */
export function welcome(world: World, hosts: Hosts, session: Session): void {
  const { application, shard, intents } = session;
  const guilds = guildsOf(world, application, shard);
  dispatch(session, "READY", {
    v: 10,
    user: userView(application.bot),
    guilds: guilds.map(({ id }) => ({ id, unavailable: true })),
    session_id: session.id,
    resume_gateway_url: hosts.gateway,
    shard,
    application: {
      id: application.id,
      flags: application.intents.messageContent ? ApplicationFlags.GatewayMessageContentLimited : 0,
    },
  });
  if ((intents & GatewayIntentBits.Guilds) === 0) return;
  const withMembers = (intents & GatewayIntentBits.GuildMembers) !== 0;
  for (const guild of guilds)
    dispatch(session, "GUILD_CREATE", guildCreateView(world, guild, application, withMembers));
}
