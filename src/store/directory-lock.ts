import * as fs from "node:fs/promises";
import { join, resolve } from "node:path";
import { lock } from "proper-lockfile";
import { z } from "zod";
import { lookFor, type ProcessIdentity, thisProcess } from "../platform/process-identity.ts";
import { diskError, StoreError } from "./store-error.ts";

export type DirectoryLock = {
  /** True once another process has taken the folder, which happens only if this one stood still. */
  isLost(): boolean;
  release(): Promise<void>;
};

/** A lock not refreshed for this long, in ms, is taken over when its holder cannot be looked up. */
const STALE = 5000;
const GUARD_STALE = 2000;

const holderSchema: z.ZodType<ProcessIdentity> = z.object({
  pid: z.int().min(1),
  began: z.string(),
  machine: z.string(),
});

/**
 * Takes a data folder for this process.
 *
 * The lock itself is proper-lockfile's, a folder `lock` whose time is refreshed. Its age alone
 * would refuse a restart right after a kill and would hand the folder of a suspended process to a
 * second one. So the holder also writes down who it is: one seen to run keeps the folder however
 * old the lock, one seen to be gone loses it at once, and only one that cannot be looked up (on
 * another machine or in another container) is judged by age. All this happens under a second,
 * short lock, so that two that start together cannot both clear the old one away.
 */
export async function lockDirectory(directory: string): Promise<DirectoryLock> {
  const path = resolve(directory);
  let guard: () => Promise<void>;
  try {
    guard = await lock(join(path, "opening"), {
      realpath: false,
      lockfilePath: join(path, "opening.lock"),
      stale: GUARD_STALE,
      retries: { retries: 40, factor: 1, minTimeout: 100, maxTimeout: 100 },
      onCompromised: () => undefined,
    });
  } catch (error) {
    throw refusal(error);
  }
  try {
    return await take(path);
  } finally {
    await guard().catch(() => undefined);
  }
}

async function take(path: string): Promise<DirectoryLock> {
  const lockPath = join(path, "lock");
  const holderPath = join(path, "lock-holder.json");
  const holder = await readHolder(holderPath);
  const seen = holder === undefined ? "unknown" : lookFor(holder);
  if (seen === "alive" && (await exists(lockPath))) throw inUse();
  if (seen === "dead") await fs.rm(lockPath, { recursive: true, force: true });
  let lost = false;
  let release: () => Promise<void>;
  try {
    release = await lock(path, {
      lockfilePath: lockPath,
      stale: STALE,
      retries:
        seen === "unknown" ? { retries: 12, factor: 1, minTimeout: 500, maxTimeout: 500 } : 0,
      onCompromised: () => {
        lost = true;
      },
    });
  } catch (error) {
    throw refusal(error);
  }
  try {
    await fs.writeFile(holderPath, JSON.stringify(thisProcess()), { mode: 0o600 });
  } catch (error) {
    // The name of the last holder would still be there, and let anyone clear our lock away.
    await release();
    throw diskError(error, "mark the data folder as mine");
  }
  return {
    isLost: () => lost,
    async release() {
      if (lost) return;
      await fs.rm(holderPath, { force: true });
      await release();
    },
  };
}

async function readHolder(path: string): Promise<ProcessIdentity | undefined> {
  try {
    return holderSchema.safeParse(JSON.parse(await fs.readFile(path, "utf8"))).data;
  } catch {
    // Missing, torn by a kill or not ours: then nobody can be looked up.
    return undefined;
  }
}

const exists = (path: string): Promise<boolean> =>
  fs.stat(path).then(
    () => true,
    () => false,
  );

const inUse = (cause?: unknown): StoreError =>
  new StoreError(
    "in-use",
    "Another Wetside is using this folder. Stop it first, or choose another folder.",
    cause,
  );

function refusal(error: unknown): StoreError {
  if (error instanceof Error && "code" in error && error.code === "ELOCKED") return inUse(error);
  return new StoreError(
    "no-permission",
    "I cannot lock the data folder. Check that it is a folder and that you may write in it.",
    error,
  );
}
