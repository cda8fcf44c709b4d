import { Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "./api.ts";
import { failureOf } from "./failure.ts";

/** A message of a channel, as far as it tells whether it is one of ours. */
const messageSchema = z.object({
  id: z.string(),
  content: z.string().default(""),
  flags: z.number().default(0),
  components: z
    .array(
      z.object({ components: z.array(z.object({ custom_id: z.string().optional() })).optional() }),
    )
    .default([]),
});
export type FoundMessage = z.infer<typeof messageSchema>;

/** So many messages back are looked at: as many as Discord gives at once. */
const LOOKED_AT = 100;

/** A nonce is good for "the past few minutes" (Discord's documentation, Create Message); so long, ms. */
export const NONCE_GOOD_FOR = 60_000;

/**
 * The latest messages of a channel, for what may have been posted although no answer told so and its
 * nonce is forgotten by now; none where the history is not to be read.
 *
 * @throws what the request throws when Discord cannot be reached
 */
export async function latestMessages(
  api: Api,
  channel: string,
  signal: AbortSignal,
): Promise<readonly FoundMessage[]> {
  const latest = `${Routes.channelMessages(channel)}?limit=${LOOKED_AT}` as `/${string}`;
  const found = await api.call("get", latest, { signal }).catch((error: unknown) => {
    const { kind } = failureOf(error);
    if (kind === "no-permission" || kind === "gone" || kind === "refused") return [];
    throw error;
  });
  return z.array(messageSchema).safeParse(found).data ?? [];
}
