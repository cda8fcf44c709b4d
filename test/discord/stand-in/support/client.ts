import { Client, type ClientOptions, GatewayIntentBits, Partials } from "discord.js";
import type { StandIn } from "../start.ts";

/** The intents a bot can have without asking anybody, as far as the tests here need them. */
export const ordinaryIntents = [
  GatewayIntentBits.Guilds,
  GatewayIntentBits.GuildMessages,
  GatewayIntentBits.DirectMessages,
];

/** The real client, pointed at the stand-in. */
export const clientOf = (discord: StandIn, options: Partial<ClientOptions> = {}): Client =>
  new Client({
    intents: ordinaryIntents,
    partials: [Partials.Channel, Partials.Message],
    ...options,
    // The stand-in watches the spacing itself, at its own pace.
    ws: { buildIdentifyThrottler: async () => ({ waitForIdentify: async () => undefined }) },
    rest: { api: discord.apiUrl, retries: 0, ...options.rest },
  });
