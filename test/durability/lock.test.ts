import { chmod, mkdir, readdir, readFile, stat, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { lookFor, thisProcess } from "../../src/platform/process-identity.ts";
import { lockDirectory } from "../../src/store/directory-lock.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { type Child, startChild, withFolder } from "../support/child.ts";
import { tallySchema } from "../support/tally.ts";

const IN_USE = "Another Wetside is using this folder. Stop it first, or choose another folder.";

async function holding(directory: string, use: (child: Child) => Promise<void>): Promise<void> {
  const child = startChild("commit-in-a-loop.ts", directory, "1");
  try {
    await child.until((lines) => lines.includes("done"));
    expect(child.lines[0]).toBe("open");
    await use(child);
  } finally {
    child.kill("SIGKILL");
    await child.ended();
  }
}

test("a second process is refused in words, and let in once the first has left", async () => {
  await withFolder(async (directory) => {
    const store = await openFileStore({ directory, schema: tallySchema });
    const second = startChild("commit-in-a-loop.ts", directory, "1");
    await second.finish();
    expect(second.lines).toEqual([IN_USE]);
    await store.close();
    expect(await readdir(directory)).toEqual(["benches"]);
    const third = startChild("commit-in-a-loop.ts", directory, "1");
    await third.finish();
    expect(third.lines).toEqual(["open", "1", "done"]);
  });
});

test("a holder that runs keeps the folder, however long it stood still", async () => {
  await withFolder(async (directory) => {
    await holding(directory, async (child) => {
      child.kill("SIGSTOP");
      await utimes(join(directory, "lock"), new Date(0), new Date(0));
      await expect(openFileStore({ directory, schema: tallySchema })).rejects.toThrow(IN_USE);
    });
  });
});

test("the same process cannot open a folder twice", async () => {
  await withFolder(async (directory) => {
    const lock = await lockDirectory(directory);
    await expect(lockDirectory(directory)).rejects.toMatchObject({ kind: "in-use" });
    await lock.release();
    const again = await lockDirectory(directory);
    expect(again.isLost()).toBe(false);
    await again.release();
  });
});

test("of several that find a dead holder's lock exactly one gets in", async () => {
  await withFolder(async (directory) => {
    await holding(directory, async () => undefined);
    expect(await readdir(directory)).toContain("lock");
    const starts = [1, 2, 3, 4].map(() => startChild("commit-in-a-loop.ts", directory, "0"));
    await Promise.all(starts.map((child) => child.until((lines) => lines.length > 0)));
    await Promise.all(starts.map((child) => child.finish()));
    const answers = starts.map(({ lines }) => lines[0]).sort();
    expect(answers).toEqual([IN_USE, IN_USE, IN_USE, "open"]);
  });
});

test("a lock whose holder cannot be looked up is judged by its age", async () => {
  await withFolder(async (directory) => {
    const elsewhere = { ...thisProcess(), machine: "another" };
    await mkdir(join(directory, "lock"));
    await writeFile(join(directory, "lock-holder.json"), JSON.stringify(elsewhere));
    await utimes(join(directory, "lock"), new Date(0), new Date(0));
    const lock = await lockDirectory(directory);
    const holder: unknown = JSON.parse(await readFile(join(directory, "lock-holder.json"), "utf8"));
    expect(holder).toEqual(thisProcess());
    await lock.release();
  });
});

test.runIf(process.platform === "linux")(
  "a process is told from a later one of the same number",
  () => {
    expect(lookFor(thisProcess())).toBe("alive");
    expect(lookFor({ ...thisProcess(), began: "1" })).toBe("dead");
    expect(lookFor({ ...thisProcess(), pid: 2 ** 22 + 1 })).toBe("dead");
    expect(lookFor({ ...thisProcess(), machine: "another" })).toBe("unknown");
  },
);

test.runIf(process.platform !== "win32")("a new data folder is for its owner alone", async () => {
  await withFolder(async (folder) => {
    const directory = join(folder, "one", "two");
    const store = await openFileStore({ directory, schema: tallySchema });
    await store.load("home");
    await store.commit("home", undefined, { schemaVersion: 1, count: 0, list: [] });
    await store.close();
    const mode = async (...path: string[]) => (await stat(join(directory, ...path))).mode & 0o777;
    expect(await mode()).toBe(0o700);
    expect(await mode("benches", "home")).toBe(0o700);
    expect(await mode("benches", "home", "snapshot-1.json")).toBe(0o600);
    expect(await mode("benches", "home", "journal-1.jsonl")).toBe(0o600);
  });
});

test("a data folder that is a file is refused in words", async () => {
  await withFolder(async (folder) => {
    const directory = join(folder, "file");
    await writeFile(directory, "");
    await chmod(directory, 0o600);
    await expect(openFileStore({ directory, schema: tallySchema })).rejects.toMatchObject({
      name: "StoreError",
    });
  });
});
