import { z } from "zod";
import { channelView, guildView, roleView } from "../views/guild.ts";
import { memberView, userView } from "../views/user.ts";
import { type Answer, type Call, caller, queryOf, type Route } from "./call.ts";
import { guildOf } from "./find.ts";
import { refusals } from "./refusal.ts";

function member(call: Call): Answer {
  const found = guildOf(call).members.get(call.params.user ?? "");
  if (found === undefined) throw refusals.unknownMember();
  return memberView(found);
}

function channels(call: Call): Answer {
  return [...guildOf(call).channelIds].flatMap((id) => {
    const channel = call.world.channels.get(id);
    return channel === undefined ? [] : [channelView(channel)];
  });
}

const page = z.object({
  limit: z.coerce.number().int().min(1).max(1000).default(1),
  after: z.string().default("0"),
});

/** List Guild Members needs the members intent switched on. */
function members(call: Call): Answer {
  const guild = guildOf(call);
  if (!caller(call).intents.guildMembers) throw refusals.missingAccess();
  const { limit, after } = queryOf(call, page);
  return [...guild.members.values()]
    .filter(({ user }) => BigInt(user.id) > BigInt(after))
    .sort((one, other) => (BigInt(one.user.id) < BigInt(other.user.id) ? -1 : 1))
    .slice(0, limit)
    .map(memberView);
}

function user(call: Call): Answer {
  const found = call.world.users.get(call.params.user ?? "");
  if (found === undefined) throw refusals.unknownUser();
  return userView(found);
}

function myGuilds(call: Call): Answer {
  const { bot } = caller(call);
  return [...call.world.guilds.values()]
    .filter(({ members: all }) => all.has(bot.id))
    .map(({ id, name, ownerId }) => ({
      id,
      name,
      icon: null,
      banner: null,
      owner: ownerId === bot.id,
      permissions: "0",
      features: [],
    }));
}

const bucket = { limit: 10, windowMs: 2000 };
const get = (path: string, run: Route["run"], query: readonly string[] = []): Route => ({
  method: "GET",
  path,
  token: "bot",
  bucket,
  query,
  run,
});

export const guildRoutes: readonly Route[] = [
  get("/guilds/:guild", (call) => guildView(guildOf(call)), ["with_counts"]),
  get("/guilds/:guild/roles", (call) => [...guildOf(call).roles.values()].map(roleView)),
  get("/guilds/:guild/channels", channels),
  get("/guilds/:guild/members", members, ["limit", "after"]),
  get("/guilds/:guild/members/:user", member),
  get("/users/:user", user),
  get("/users/@me/guilds", myGuilds, ["limit", "before", "after", "with_counts"]),
];
