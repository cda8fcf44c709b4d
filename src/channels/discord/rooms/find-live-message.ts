import { MessageFlags, Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";
import { readRunKey } from "../words/asked.ts";
import { customId } from "../words/custom-id.ts";

/** A message of a channel, as far as it tells whether it is a live one of ours. */
const messageSchema = z.object({
  id: z.string(),
  flags: z.number().default(0),
  components: z
    .array(
      z.object({ components: z.array(z.object({ custom_id: z.string().optional() })).optional() }),
    )
    .default([]),
});
type Message = z.infer<typeof messageSchema>;

/** So many messages back it is looked for: as many as Discord gives at once. */
const LOOKED_AT = 100;

/**
 * The live message of a run that was made although no answer told so, found by its buttons; undefined
 * where there is none, or where the channel's history is not to be read.
 *
 * @throws what the request throws when Discord cannot be reached
 */
export async function findLiveMessage(
  api: Api,
  channel: string,
  bench: string,
  run: string,
  signal: AbortSignal,
): Promise<Message | undefined> {
  const latest = `${Routes.channelMessages(channel)}?limit=${LOOKED_AT}` as `/${string}`;
  const found = await api.call("get", latest, { signal }).catch((error: unknown) => {
    const { kind } = failureOf(error);
    if (kind === "no-permission" || kind === "gone" || kind === "refused") return [];
    throw error;
  });
  const messages = z.array(messageSchema).safeParse(found);
  return messages.data?.find((one) => isSilent(one) && buttonsOf(one).some((id) => isOf(id)));

  function isOf(id: string): boolean {
    const read = customId.read(id);
    if (read.kind !== "button" || read.bench !== bench) return false;
    return readRunKey(read.asked ?? "")?.run === run;
  }
}

const isSilent = ({ flags }: Message): boolean =>
  (flags & MessageFlags.SuppressNotifications) !== 0;

const buttonsOf = ({ components }: Message): readonly string[] =>
  components.flatMap(({ components: row = [] }) => row.flatMap(({ custom_id: id }) => id ?? []));
