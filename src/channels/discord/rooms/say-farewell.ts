import { Routes } from "discord-api-types/v10";
import { farewell } from "../../../conversation/farewell.ts";
import type { Api } from "../delivery/api.ts";
import { cueMessage } from "../words/cue-message.ts";
import type { Room } from "./room.ts";

/** How long the network may take over all of it, ms. */
const PATIENCE = 4000;

/**
 * Tells every bench with an open run that the program leaves, with the clock times of what is
 * still to be done. Sent once and not kept: told after the return it would be wrong.
 */
export async function sayFarewell(
  rooms: readonly Room[],
  api: Api,
  onFault: (error: unknown) => void,
): Promise<void> {
  const signal = AbortSignal.timeout(PATIENCE);
  await Promise.all(rooms.map((room) => sayAt(room, api, signal).catch(onFault)));
}

async function sayAt(room: Room, api: Api, signal: AbortSignal): Promise<void> {
  const { bench } = room.keeper.record;
  const { closed, channel, owners } = room.place.value;
  const now = room.now();
  const reply = farewell(bench, now);
  if (reply === undefined || closed !== undefined) return;
  const mention = Object.keys(bench.runs)
    .map((run) => owners[run])
    .find((owner) => owner !== undefined);
  const context = { bench, benchKey: room.key, mode: bench.mode, now, mention };
  const path = Routes.channelMessages(channel) as `/${string}`;
  for (const [index, payload] of cueMessage(reply, context).entries()) {
    const nonce = `f${room.key.slice(-8)}-${now.toString(36)}-${index}`.slice(0, 25);
    // No buttons: nobody would hear them.
    const body = { ...payload, components: [], nonce, enforce_nonce: true };
    await api.request("post", path, { body, signal });
  }
}
