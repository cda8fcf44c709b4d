import { ApplicationFlags, ChannelType } from "discord-api-types/v10";
import { z } from "zod";
import { channelView } from "../views/guild.ts";
import { userView } from "../views/user.ts";
import type { Application, Channel, User, World } from "../world.ts";
import { type Answer, type Call, caller, formOf, type Route } from "./call.ts";
import { Refusal } from "./refusal.ts";

/** Get Current Application; its flags tell which privileged intents are on ("Application Flags"). */
function applicationView(application: Application): object {
  const { intents } = application;
  const flags =
    (intents.messageContent ? ApplicationFlags.GatewayMessageContentLimited : 0) |
    (intents.guildMembers ? ApplicationFlags.GatewayGuildMembersLimited : 0) |
    (intents.guildPresences ? ApplicationFlags.GatewayPresenceLimited : 0);
  return {
    id: application.id,
    name: application.name,
    icon: null,
    description: "",
    summary: "",
    bot_public: false,
    bot_require_code_grant: false,
    verify_key: "0".repeat(64),
    flags,
    bot: userView(application.bot),
  };
}

/** The two of a direct message have one channel, made when first needed. */
export function directChannel(world: World, bot: User, user: User): Channel {
  const known = [...world.channels.values()].find(
    ({ guildId, recipients }) =>
      guildId === undefined && recipients.includes(bot) && recipients.includes(user),
  );
  if (known !== undefined) return known;
  const channel: Channel = {
    id: world.ids.next(),
    name: "",
    type: ChannelType.DM,
    guildId: undefined,
    overwrites: new Map(),
    recipients: [bot, user],
    messages: [],
    oldEdits: [],
    typing: [],
  };
  world.channels.set(channel.id, channel);
  return channel;
}

/** Create DM. @throws Refusal 50033 for nobody, another bot or oneself (from memory) */
function openDirect(call: Call): Answer {
  const { bot } = caller(call);
  const { recipient_id } = formOf(call, z.strictObject({ recipient_id: z.string() }));
  const user = call.world.users.get(recipient_id);
  if (user === undefined || user.bot) throw new Refusal(400, 50033, "Invalid Recipient(s)");
  return channelView(directChannel(call.world, bot, user), bot.id);
}

/** Get Gateway Bot. */
function gateway(call: Call): Answer {
  const application = caller(call);
  return {
    url: call.hosts.gateway,
    shards: application.recommendedShards,
    session_start_limit: {
      total: 1000,
      remaining: Math.max(0, 1000 - application.sessionStarts),
      reset_after: 14_400_000,
      max_concurrency: application.maxConcurrency,
    },
  };
}

const bucket = { limit: 10, windowMs: 2000 };

export const selfRoutes: readonly Route[] = [
  {
    method: "GET",
    path: "/users/@me",
    token: "bot",
    bucket,
    run: (call) => userView(caller(call).bot),
  },
  {
    method: "GET",
    path: "/applications/@me",
    token: "bot",
    bucket,
    run: (call) => applicationView(caller(call)),
  },
  {
    method: "GET",
    path: "/oauth2/applications/@me",
    token: "bot",
    bucket,
    run: (call) => applicationView(caller(call)),
  },
  { method: "POST", path: "/users/@me/channels", token: "bot", bucket, run: openDirect },
  { method: "GET", path: "/gateway/bot", token: "bot", bucket, run: gateway },
  {
    method: "GET",
    path: "/gateway",
    token: "path",
    bucket,
    run: (call) => ({ url: call.hosts.gateway }),
  },
];
