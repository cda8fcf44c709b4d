import { ChannelType } from "discord-api-types/v10";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";
import { inspectChannel } from "./inspect-channel.ts";
import { missingToSpeak } from "./permissions.ts";

type Spoken = {
  /** Everybody in the guild may come in and hear. */
  readonly isPublic: boolean;
  /** Names of the permissions the bot lacks there. */
  readonly lacks: readonly string[];
};

/**
 * Whether the bot may speak and listen in a channel, looked at anew.
 *
 * @returns "unseen" where the channel is not the bot's to see
 * @throws when Discord cannot be reached
 */
export async function inspectVoice(
  api: Api,
  channel: string,
  guild: string,
  bot: string,
): Promise<Spoken | "unseen" | "no voice channel"> {
  try {
    const seen = await inspectChannel(api, channel, bot);
    if (seen.guild !== guild) return "unseen";
    if (seen.type !== ChannelType.GuildVoice) return "no voice channel";
    return { isPublic: seen.isPublic, lacks: missingToSpeak(seen.mine).map(({ name }) => name) };
  } catch (error) {
    const { kind } = failureOf(error);
    if (kind === "no-permission" || kind === "gone") return "unseen";
    throw error;
  }
}
