import { ApplicationFlags, Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { DiscordSettings } from "../../../settings.ts";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";
import type { Place } from "../directory/record.ts";
import { inspectChannel } from "../set-up/inspect-channel.ts";
import { invited, missingNeeds, missingWishes } from "../set-up/permissions.ts";
import type { Finding } from "./finding.ts";

const applicationSchema = z.object({ id: z.string(), flags: z.number().default(0) });
const userSchema = z.object({ id: z.string(), username: z.string() });
const guildsSchema = z.array(z.object({ id: z.string(), name: z.string() }));
const gatewaySchema = z.object({
  shards: z.number(),
  session_start_limit: z.object({ remaining: z.number(), reset_after: z.number() }),
});

const CONTENT =
  ApplicationFlags.GatewayMessageContent | ApplicationFlags.GatewayMessageContentLimited;

const good = (what: string, says: string): Finding => ({ kind: "good", what, says });
const note = (what: string, says: string): Finding => ({ kind: "note", what, says });
const mend = (what: string, says: string): Finding => ({ kind: "mend", what, says });

/** The address that brings the bot into a server, with just the permissions it needs. */
export const invitation = (application: string): string =>
  `https://discord.com/oauth2/authorize?client_id=${application}&scope=bot+applications.commands&permissions=${invited}`;

/** All that Discord itself can be asked about; stops where the rest would make no sense. */
export async function examineDiscord(
  api: Api,
  settings: DiscordSettings,
  places: readonly Place[],
): Promise<readonly Finding[]> {
  let bot: { readonly id: string; readonly username: string };
  try {
    bot = userSchema.parse(await api.call("get", Routes.user()));
  } catch (error) {
    return [whyNot(error)];
  }
  const application = applicationSchema.parse(await api.call("get", Routes.currentApplication()));
  return [
    good("token", `accepted; the bot is called ${bot.username}`),
    (application.flags & CONTENT) !== 0
      ? good("intents", "message content is on: plain sentences work in the bench's channel")
      : note(
          "intents",
          "message content is off: plain sentences work in direct messages and mentions, and /say everywhere. To have them in the bench's channel, switch on Message Content Intent on the application's Bot page.",
        ),
    ...(await examineShards(api, settings)),
    ...(await examineGuilds(api, application.id)),
    ...(await examineChannels(api, bot.id, places)),
  ];
}

function whyNot(error: unknown): Finding {
  const failure = failureOf(error);
  switch (failure.kind) {
    case "bad-token":
      return mend(
        "token",
        "Discord does not accept DISCORD_TOKEN. Make a new one on the application's Bot page and put it in .env.",
      );
    case "unreachable":
      return mend(
        "network",
        `Discord cannot be reached (${failure.what}). Check the connection, a proxy or firewall, and DISCORD_API if it is set.`,
      );
    case "limited":
      return mend(
        "network",
        "Discord asks for patience: too many requests. Try again in a minute.",
      );
    default:
      return mend(
        "network",
        "Discord answers in a way I do not know. Check DISCORD_API if it is set.",
      );
  }
}

async function examineShards(api: Api, settings: DiscordSettings): Promise<readonly Finding[]> {
  const gateway = gatewaySchema.parse(await api.call("get", Routes.gatewayBot()));
  const { remaining, reset_after: reset } = gateway.session_start_limit;
  const { shardCount, shards } = settings;
  const advice =
    shardCount === undefined
      ? good("shards", `as Discord recommends: ${gateway.shards}`)
      : shardCount < gateway.shards
        ? mend(
            "shards",
            `DISCORD_SHARD_COUNT is ${shardCount} and Discord recommends ${gateway.shards}: raise it in every process.`,
          )
        : good("shards", `${shards?.join(", ")} of ${shardCount}`);
  return remaining > 0
    ? [advice]
    : [
        advice,
        mend(
          "log-ins",
          `No log-in is left for ${Math.ceil(reset / 3_600_000)} h: something starts this bot again and again. Stop it.`,
        ),
      ];
}

async function examineGuilds(api: Api, application: string): Promise<readonly Finding[]> {
  const guilds = guildsSchema.parse(await api.call("get", Routes.userGuilds()));
  return guilds.length > 0
    ? [
        good(
          "servers",
          `the bot is in ${guilds.length}: ${guilds
            .map(({ name }) => name)
            .slice(0, 5)
            .join(", ")}`,
        ),
      ]
    : [mend("servers", `The bot is in no server yet. Invite it: ${invitation(application)}`)];
}

async function examineChannels(
  api: Api,
  bot: string,
  places: readonly Place[],
): Promise<readonly Finding[]> {
  const open = places.filter(({ closed }) => closed === undefined);
  const found = await Promise.all(
    open.map((place) =>
      examineChannel(api, bot, place).catch((error: unknown) => [lost(place, error)]),
    ),
  );
  const closed = places.flatMap(({ closed: why, channelName }): readonly Finding[] =>
    why === undefined
      ? []
      : [
          note(
            `#${channelName}`,
            `the bench is closed (${why}) and kept; /wetside open brings it back`,
          ),
        ],
  );
  return [...found.flat(), ...closed];
}

async function examineChannel(api: Api, bot: string, place: Place): Promise<readonly Finding[]> {
  const what = `#${place.channelName}`;
  const { mine, isPublic } = await inspectChannel(api, place.channel, bot);
  const needs = missingNeeds(mine);
  const wishes = missingWishes(mine);
  const findings = [
    ...(isPublic
      ? [
          mend(
            what,
            "Everyone in the server can see it. Switch off View Channel for @everyone there.",
          ),
        ]
      : []),
    ...needs.map(({ name, why }) => mend(what, `Allow me ${name} there, ${why}.`)),
    ...wishes.map(({ name, why }) =>
      note(what, `${name} is not allowed there, ${why}; the rest works.`),
    ),
  ];
  return findings.length === 0 ? [good(what, "private, and I may do all I need")] : findings;
}

function lost({ channelName }: Place, error: unknown): Finding {
  const { kind } = failureOf(error);
  const what = `#${channelName}`;
  if (kind === "gone")
    return mend(
      what,
      "The channel is gone. Open its bench in another: /wetside open, option bench.",
    );
  if (kind === "no-permission")
    return mend(what, "I cannot see it any more. Add me to the channel under its Permissions.");
  return mend(what, "It could not be looked at. Try again.");
}
