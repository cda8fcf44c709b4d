import { Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "./api.ts";

/** The channels in which the bot talks with one person alone. */
export type DirectMessages = {
  channelOf(user: string, signal?: AbortSignal): Promise<string>;
  /** The channel, if it was asked for before. */
  known(user: string): string | undefined;
  /** Takes note of a channel seen elsewhere. */
  note(user: string, channel: string): void;
  forget(user: string): void;
};

const answer = z.object({ id: z.string() });

/** So many are remembered: asking again costs one request. */
const MOST = 5000;

export function createDirectMessages(api: Api): DirectMessages {
  const channels = new Map<string, string>();
  const note = (user: string, channel: string): void => {
    if (channels.size >= MOST) channels.clear();
    channels.set(user, channel);
  };
  return {
    async channelOf(user, signal) {
      const known = channels.get(user);
      if (known !== undefined) return known;
      const body = { recipient_id: user };
      const { id } = answer.parse(
        await api.request("post", Routes.userChannels(), { body, signal }),
      );
      note(user, id);
      return id;
    },
    known: (user) => channels.get(user),
    note,
    forget: (user) => void channels.delete(user),
  };
}
