import { GatewayIntentBits } from "discord-api-types/v10";
import { z } from "zod";
import { shardOf } from "../time-and-ids.ts";
import type { Application, Guild, World } from "../world.ts";

/** Identify Structure (Gateway Events, "Identify"). */
export const identify = z.strictObject({
  token: z.string(),
  properties: z.strictObject({ os: z.string(), browser: z.string(), device: z.string() }),
  intents: z.int().min(0),
  compress: z.literal(false).optional(),
  large_threshold: z.int().min(50).max(250).optional(),
  shard: z.tuple([z.int().min(0), z.int().min(1)]).optional(),
  presence: z.unknown().optional(),
});

export type Identify = z.infer<typeof identify>;

export const resume = z.strictObject({ token: z.string(), session_id: z.string(), seq: z.int() });

const KNOWN = Object.values(GatewayIntentBits)
  .filter((bit) => typeof bit === "number")
  .reduce((all, bit) => all | bit, 0);

/** A shard serves at most 2,500 guilds (Gateway, "Sharding"). */
const SHARD_GUILDS = 2500;

const PRIVILEGED = {
  messageContent: GatewayIntentBits.MessageContent,
  guildMembers: GatewayIntentBits.GuildMembers,
  guildPresences: GatewayIntentBits.GuildPresences,
} as const;

/**
 * The close code an identify earns, or the application it is for ("Gateway Close Event Codes"):
 * 4004 bad token, 4010 bad shard, 4011 too many guilds, 4013 bad intents, 4014 intents not allowed.
 */
export function checkIdentify(
  world: World,
  wanted: Identify,
): { close: number } | { application: Application } {
  const application = world.applications.get(wanted.token);
  if (application === undefined) return { close: 4004 };
  const [which, count] = wanted.shard ?? [0, 1];
  if (which >= count) return { close: 4010 };
  if (guildsOf(world, application, [which, count]).length > SHARD_GUILDS) return { close: 4011 };
  if ((wanted.intents & ~KNOWN) !== 0) return { close: 4013 };
  const off = (Object.keys(PRIVILEGED) as (keyof typeof PRIVILEGED)[]).filter(
    (name) => !application.intents[name],
  );
  if (off.some((name) => (wanted.intents & PRIVILEGED[name]) !== 0)) return { close: 4014 };
  return { application };
}

/** The guilds a shard hears of. */
export const guildsOf = (
  world: World,
  { bot }: Application,
  [which, count]: readonly [number, number],
): Guild[] =>
  [...world.guilds.values()].filter(
    ({ id, members }) => members.has(bot.id) && shardOf(id, count) === which,
  );
