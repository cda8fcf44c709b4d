import { chmod, readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { HEARTBEAT } from "../health/heartbeat.ts";

/** Folders of ours in the data folder. */
const FOLDERS = [
  ...["benches", "discord", "exports", "pictures", "records"],
  ...["pictures.incoming", "pictures.outgoing"],
];
/** Everything of ours in it. */
const OURS: ReadonlySet<string> = new Set([
  ...FOLDERS,
  ...["lock", "lock-holder.json", "opening.lock", HEARTBEAT, `${HEARTBEAT}.new`],
]);

/** What others of the machine may do, of a mode. */
const OTHERS = 0o077;
const OWN = 0o700;

/**
 * Sees to it that nobody else of the machine can look into the data folder. A folder we make is
 * closed from the start; this is for one that was there before, or came back from a copy. One that
 * holds other things as well keeps its mode, and what is ours in it is closed.
 *
 * @returns sentences for the user: what was closed, or could not be
 */
export async function closeToOthers(data: string): Promise<readonly string[]> {
  if (process.platform === "win32") return [];
  const names = await readdir(data).catch(() => []);
  const all = names.every((name) => OURS.has(name));
  const within = names.filter((name) => FOLDERS.includes(name)).map((name) => join(data, name));
  const open: string[] = [];
  for (const path of [...(all ? [data] : []), ...within]) {
    if (((await stat(path)).mode & OTHERS) !== 0) open.push(path);
  }
  if (open.length === 0) return [];
  try {
    for (const path of open) await chmod(path, OWN);
    return ["Others on this machine could look into the data folder; I have closed it to them."];
  } catch {
    return [
      "Others on this machine can look into the data folder, and I may not close it: it belongs to somebody else. Have its owner take their rights away.",
    ];
  }
}
