import type { InteractionHandle } from "../people/interaction-handle.ts";
import { type Setting, setUp, TOKEN } from "./set-up.ts";
import type { Frame, Wire } from "./wire.ts";
import { readyWire } from "./wire.ts";

export type Answering = Setting & {
  readonly wire: Wire;
  /** The path of an interaction's callback. */
  callback(handle: InteractionHandle): Promise<string>;
  /** The path of its follow-ups. */
  webhook(handle: InteractionHandle): Promise<string>;
};

/** A bot, by hand, with one command: /mix total:number bottle:completed. */
export async function answering(): Promise<Answering> {
  const setting = await setUp();
  const { call, app, discord } = setting;
  await call("PUT", `/applications/${app.id}/commands`, [
    {
      name: "mix",
      description: "Mix",
      options: [
        { type: 10, name: "total", description: "mL", min_value: 1 },
        { type: 3, name: "bottle", description: "which", autocomplete: true },
      ],
    },
  ]);
  const wire = await readyWire(discord, TOKEN);
  const heard = (handle: InteractionHandle): Promise<Frame> =>
    wire.until(({ t, d }) => t === "INTERACTION_CREATE" && d.id === handle.id);
  return {
    ...setting,
    wire,
    callback: async (handle) =>
      `/interactions/${handle.id}/${(await heard(handle)).d.token}/callback`,
    webhook: async (handle) => `/webhooks/${app.id}/${(await heard(handle)).d.token}`,
  };
}
