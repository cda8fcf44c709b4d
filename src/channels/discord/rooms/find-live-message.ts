import { MessageFlags } from "discord-api-types/v10";
import type { FoundMessage } from "../delivery/latest-messages.ts";
import { readRunKey } from "../words/asked.ts";
import { customId } from "../words/custom-id.ts";

/** The live message of a run, by its buttons. */
export const findLiveMessage = (
  messages: readonly FoundMessage[],
  bench: string,
  run: string,
): FoundMessage | undefined =>
  messages.find((one) => isSilent(one) && buttonsOf(one).some((id) => isOf(id, bench, run)));

function isOf(id: string, bench: string, run: string): boolean {
  const read = customId.read(id);
  if (read.kind !== "button" || read.bench !== bench) return false;
  return readRunKey(read.asked ?? "")?.run === run;
}

const isSilent = ({ flags }: FoundMessage): boolean =>
  (flags & MessageFlags.SuppressNotifications) !== 0;

const buttonsOf = ({ components }: FoundMessage): readonly string[] =>
  components.flatMap(({ components: row = [] }) => row.flatMap(({ custom_id: id }) => id ?? []));
