import type {
  APIActionRowComponent,
  APIAllowedMentions,
  APIButtonComponentWithCustomId,
  APIComponentInMessageActionRow,
} from "discord-api-types/v10";
import { MessageFlags } from "discord-api-types/v10";

export type ButtonRow = APIActionRowComponent<APIComponentInMessageActionRow>;

/**
 * A message as the REST API takes it, at most 2,000 characters. For `channel.send` of discord.js
 * the mentions are called `allowedMentions`; everything else is the same.
 */
export type MessagePayload = {
  readonly content: string;
  readonly components: ButtonRow[];
  readonly allowed_mentions: APIAllowedMentions & { parse: [] };
  readonly flags: number;
};

/** Characters of one message. */
export const MOST_CHARACTERS = 2000;

export type PayloadExtras = {
  readonly buttons?: readonly (readonly APIButtonComponentWithCustomId[])[];
  /** Only the one who asked sees it. */
  readonly ephemeral?: boolean | undefined;
  /** No sound, no banner: for what is edited or only to be looked up. */
  readonly silent?: boolean;
  /** The one member who may be called by it, as a Discord id. */
  readonly mention?: string | undefined;
};

/** Nobody is ever called by what users typed; links in it show no preview. */
export function payload(content: string, extras: PayloadExtras = {}): MessagePayload {
  const { buttons = [], ephemeral = false, silent = false, mention } = extras;
  return {
    content,
    components: buttons
      .filter((row) => row.length > 0)
      .map((row) => ({ type: 1, components: [...row] })),
    allowed_mentions: mention === undefined ? { parse: [] } : { parse: [], users: [mention] },
    flags:
      MessageFlags.SuppressEmbeds |
      (ephemeral ? MessageFlags.Ephemeral : 0) |
      (silent ? MessageFlags.SuppressNotifications : 0),
  };
}
