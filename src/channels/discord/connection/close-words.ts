import { GatewayCloseCodes as Code } from "discord-api-types/v10";

export const BAD_TOKEN =
  "Discord does not accept DISCORD_TOKEN any more. Make a new token on the application's Bot page, put it in .env or the environment, and start me again. Benches and runs are kept, and their clocks go on.";

/** Why Discord will not have the bot back as it is; undefined where it may simply try again. */
export function whyOver(code: number): string | undefined {
  switch (code) {
    case Code.AuthenticationFailed:
      return BAD_TOKEN;
    case Code.InvalidShard:
    case Code.ShardingRequired:
      return "Discord wants other shards: set DISCORD_SHARDS and DISCORD_SHARD_COUNT as npm run doctor says, or leave both out.";
    case Code.InvalidAPIVersion:
    case Code.InvalidIntents:
      return "Discord does not know what I ask for any more: this Wetside is too old. Get a newer one.";
    case Code.DisallowedIntents:
      return "Discord refuses the intents I ask for. Say npm run doctor.";
    default:
      return undefined;
  }
}
