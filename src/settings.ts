import { existsSync, readFileSync } from "node:fs";
import { parseEnv } from "node:util";
import { z } from "zod";
import { err, ok, type Result } from "./domain/result.ts";
import { logSettings } from "./log/log.ts";
import { Secret } from "./platform/secret.ts";

/** What the Discord channel needs to know. */
export type DiscordSettings = {
  readonly token: Secret;
  /** Base address of its REST interface, without the version; missing: Discord's own. */
  readonly api?: string | undefined;
  /** Shards of this process, and of all processes together; missing: as Discord recommends. */
  readonly shards?: readonly number[] | undefined;
  readonly shardCount?: number | undefined;
};

const SHARDS = "DISCORD_SHARDS names the shards of this process, like 0 or 0,1.";
const COUNT =
  "DISCORD_SHARD_COUNT is the number of shards of all processes together, 1 or more, and goes with DISCORD_SHARDS.";
const API = "DISCORD_API is an address like https://discord.com/api, without a version.";

const discordSchema = z
  .object({
    token: z
      .string()
      .regex(/^[\w.-]+$/, "DISCORD_TOKEN holds a character that no token has. Copy it anew.")
      .transform((token) => new Secret(token)),
    api: z
      .url({ protocol: /^https?$/, error: API })
      .transform((url) => url.replace(/\/+$/, ""))
      .refine((url) => !/\/v\d+$/.test(url), API)
      .optional(),
    shards: z
      .string()
      .regex(/^\d{1,5}(\s*,\s*\d{1,5})*$/, SHARDS)
      .transform((text) => [...new Set(text.split(",").map(Number))])
      .optional(),
    shardCount: z
      .string()
      .regex(/^[1-9]\d{0,4}$/, COUNT)
      .transform(Number)
      .optional(),
  })
  .refine(({ shards, shardCount }) => (shards === undefined) === (shardCount === undefined), COUNT)
  .refine(
    ({ shards, shardCount = 0 }) =>
      !Array.isArray(shards) || shards.every((shard) => shard < shardCount),
    "DISCORD_SHARDS counts from 0: each lies below DISCORD_SHARD_COUNT.",
  );

const LOG = `WETSIDE_LOG is one of ${logSettings.join(", ")}.`;

/** What the surroundings say, checked once. Nothing else reads the environment. */
const settingsSchema = z.object({
  /** Where benches are kept. */
  data: z.string().min(1).default("./bench-data"),
  /** IANA zone of a new bench. */
  zone: z.string(),
  /** Who speaks in the terminal. */
  who: z.string().default("you"),
  /** Voice: command lines of the recorder, the player and an own recogniser, and its model folder. */
  voice: z
    .object({
      microphone: z.string().min(1).optional(),
      speaker: z.string().min(1).optional(),
      engine: z.string().min(1).optional(),
      model: z.string().min(1).optional(),
    })
    .default({}),
  /** How much is told to whoever runs it. */
  log: z.enum(logSettings, LOG).default("info"),
});
export type Settings = z.infer<typeof settingsSchema>;

function surroundings(env: NodeJS.ProcessEnv, file: string) {
  const fromFile = existsSync(file) ? parseEnv(readFileSync(file, "utf8")) : {};
  const all: NodeJS.ProcessEnv = { ...fromFile, ...env };
  /** An empty setting is none. */
  return (name: string): string | undefined => {
    const value = all[name]?.trim();
    return value === "" ? undefined : value;
  };
}

/** A setting is wrong; the message is a sentence that says what to mend. */
export class SettingsError extends Error {}

/** @throws SettingsError when one of them is wrong */
export function readSettings(env: NodeJS.ProcessEnv = process.env, file = ".env"): Settings {
  const value = surroundings(env, file);
  const read = settingsSchema.safeParse({
    data: value("WETSIDE_DATA"),
    zone: Temporal.Now.timeZoneId(),
    log: value("WETSIDE_LOG"),
    voice: {
      microphone: value("WETSIDE_MICROPHONE"),
      speaker: value("WETSIDE_SPEAKER"),
      engine: value("WETSIDE_RECOGNISER"),
      model: value("WETSIDE_SPEECH_MODEL"),
    },
  });
  if (read.success) return read.data;
  throw new SettingsError(read.error.issues[0]?.message ?? LOG);
}

/** The same for who looks at everything and says what is wrong. */
export function trySettings(): Result<Settings, string> {
  try {
    return ok(readSettings());
  } catch (error) {
    if (error instanceof SettingsError) return err(error.message);
    throw error;
  }
}

/** The Discord channel's settings; undefined while no token is set; a sentence when one is wrong. */
export function readDiscordSettings(
  env: NodeJS.ProcessEnv = process.env,
  file = ".env",
): Result<DiscordSettings | undefined, string> {
  const value = surroundings(env, file);
  const token = value("DISCORD_TOKEN");
  if (token === undefined) return ok(undefined);
  const read = discordSchema.safeParse({
    token,
    api: value("DISCORD_API"),
    shards: value("DISCORD_SHARDS"),
    shardCount: value("DISCORD_SHARD_COUNT"),
  });
  return read.success ? ok(read.data) : err(read.error.issues[0]?.message ?? COUNT);
}
