import { mkdir, readFile, rm, stat, utimes } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { withFolder } from "../../test/support/child.ts";
import { HEARTBEAT, startHeartbeat } from "./heartbeat.ts";
import { readBeat } from "./judge.ts";

/** Waits, some turns at a time, for what a beat of a few milliseconds does. */
async function until(isSo: () => Promise<boolean>): Promise<void> {
  for (let turn = 0; turn < 2000; turn += 1) {
    if (await isSo()) return;
    await new Promise((soon) => setTimeout(soon, 1));
  }
  throw new Error("It did not come about.");
}

test("where nothing can be written the file is touched: a full disk is no reason for a restart", () =>
  withFolder(async (folder) => {
    const path = join(folder, HEARTBEAT);
    const faults: unknown[] = [];
    const heart = startHeartbeat(folder, (error) => void faults.push(error), 2);
    await until(async () => (await stat(path).catch(() => undefined)) !== undefined);
    // A folder in its place: the new file cannot be written.
    await until(() =>
      mkdir(`${path}.new`).then(
        () => true,
        () => false,
      ),
    );
    await until(async () => faults.length === 1);
    const { at } = readBeat(await readFile(path, "utf8")) ?? {};
    await utimes(path, 1, 1);
    await until(async () => (await stat(path)).mtimeMs > 1000);
    expect(readBeat(await readFile(path, "utf8"))?.at).toBe(at);
    await rm(`${path}.new`, { recursive: true });
    await until(async () => readBeat(await readFile(path, "utf8"))?.at !== at);
    expect(faults).toHaveLength(1);
    await heart.stop();
    expect(await stat(path).catch(() => undefined)).toBeUndefined();
  }));
