import { ChannelType } from "discord-api-types/v10";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";
import { inspectChannel } from "./inspect-channel.ts";
import { missingToSpeak } from "./permissions.ts";

/**
 * Whether the bot may speak and listen in a channel, looked at anew.
 *
 * @returns names of the permissions it lacks there; "unseen" where the channel is not its to see
 * @throws when Discord cannot be reached
 */
export async function inspectVoice(
  api: Api,
  channel: string,
  guild: string,
  bot: string,
): Promise<{ readonly lacks: readonly string[] } | "unseen" | "no voice channel"> {
  try {
    const seen = await inspectChannel(api, channel, bot);
    if (seen.guild !== guild) return "unseen";
    if (seen.type !== ChannelType.GuildVoice) return "no voice channel";
    return { lacks: missingToSpeak(seen.mine).map(({ name }) => name) };
  } catch (error) {
    const { kind } = failureOf(error);
    if (kind === "no-permission" || kind === "gone") return "unseen";
    throw error;
  }
}
