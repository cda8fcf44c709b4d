import { type Beat, beatSchema } from "./heartbeat.ts";

export type Health = { readonly well: boolean; readonly says: string };

/** So many beats may be missed: a busy disk is no illness. */
const MISSED = 3;

/**
 * @param text  the heartbeat file; undefined when there is none
 * @param now   Unix milliseconds
 */
export function judge(text: string | undefined, now: number): Health {
  if (text === undefined) return { well: false, says: "Not running: there is no heartbeat." };
  const beat = readBeat(text);
  if (beat === undefined) return { well: false, says: "The heartbeat cannot be read." };
  const age = now - beat.at;
  const seconds = Math.round(Math.abs(age) / 1000);
  if (Math.abs(age) > beat.every * MISSED) {
    const says =
      age < 0
        ? `The heartbeat lies ${seconds} s ahead and does not move: stuck, and the clock was set.`
        : `Stuck or killed: the last heartbeat was ${seconds} s ago.`;
    return { well: false, says };
  }
  return { well: true, says: `Well: the last heartbeat was ${seconds} s ago.` };
}

/** A heartbeat file; undefined for anything else. */
export function readBeat(text: string): Beat | undefined {
  try {
    return beatSchema.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}
