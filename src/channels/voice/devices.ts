import { spawnSync } from "node:child_process";
import type { PcmForm } from "../../speech/audio/to-mono-16k.ts";

/** A program of the system that gives or takes raw 16-bit samples. */
export type Device = { readonly command: readonly string[]; readonly form: PcmForm };

const FORM: PcmForm = { rate: 16_000, channels: 1 };

const recorders: readonly (readonly string[])[] = [
  ["pw-record", "--format=s16", "--rate=16000", "--channels=1", "-"],
  ["parec", "--format=s16le", "--rate=16000", "--channels=1", "--latency-msec=20", "--raw"],
  ["arecord", "-q", "-t", "raw", "-f", "S16_LE", "-r", "16000", "-c", "1", "--period-time=20000"],
];

const players: readonly (readonly string[])[] = [
  ["pw-play", "--format=s16", "--rate=16000", "--channels=1", "--latency=20ms", "-"],
  ["pacat", "--format=s16le", "--rate=16000", "--channels=1", "--latency-msec=20", "--raw"],
  ["aplay", "-q", "-t", "raw", "-f", "S16_LE", "-r", "16000", "-c", "1", "--buffer-time=60000"],
];

/** Is this program there? */
export type IsThere = (program: string) => boolean;
export const isInstalled: IsThere = (program) =>
  spawnSync("sh", ["-c", `command -v "$1"`, "sh", program], { stdio: "ignore" }).status === 0;

/**
 * The microphone and the speaker: what the settings name, else the first of the usual tools that is
 * there; undefined where there is none.
 *
 * @param told a whole command line, split at spaces
 */
export const microphone = (told: string | undefined, isThere: IsThere): Device | undefined =>
  chosen(told, recorders, isThere);
export const speaker = (told: string | undefined, isThere: IsThere): Device | undefined =>
  chosen(told, players, isThere);

function chosen(
  told: string | undefined,
  usual: readonly (readonly string[])[],
  isThere: IsThere,
): Device | undefined {
  const own = told?.trim().split(/\s+/).filter(Boolean) ?? [];
  const command = own.length > 0 ? own : usual.find(([program]) => isThere(program ?? ""));
  return command === undefined ? undefined : { command, form: FORM };
}
