import { mkdir, readdir, readFile, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { backUp } from "../../src/backup/back-up.ts";
import { copyData } from "../../src/backup/copy-data.ts";
import type { FileSystem } from "../../src/platform/file-system.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { startChild, withFolder } from "../support/child.ts";
import { MemoryDisk } from "../support/memory-disk.ts";
import { runProgram, startProgram } from "../support/program.ts";
import { seeded } from "../support/seeded.ts";
import { isWhole, nextTally, openTallies, type Tally, tallySchema } from "../support/tally.ts";

const at = (path: string, files: FileSystem) => ({ files, path, shown: "" });

test("between any two looks of a backup the bench may move on: what is copied was once so", async () => {
  const chance = seeded(11);
  for (let round = 0; round < 60; round += 1) {
    const disk = new MemoryDisk();
    const store = await openTallies(disk, { bytes: 100_000, commits: 7 });
    await store.load("home");
    let value: Tally | undefined;
    const commit = async (times: number): Promise<void> => {
      for (let time = 0; time < times; time += 1) {
        const next = nextTally(value);
        await store.commit("home", value, next);
        value = next;
      }
    };
    await commit(1 + Math.floor(chance() * 40));
    const before = value?.count ?? 0;
    const moving: FileSystem = {
      ...Object.fromEntries(
        (["create", "append", "makeDirectory", "rename", "remove", "syncDirectory"] as const).map(
          (name) => [name, disk[name].bind(disk)],
        ),
      ),
      async read(path) {
        await commit(Math.floor(chance() * 5));
        return disk.read(path);
      },
      async list(path) {
        await commit(Math.floor(chance() * 5));
        return disk.list(path);
      },
    } as FileSystem;
    const copy = new MemoryDisk();
    copy.put("/.", "");
    const copied = await copyData(at("/data", moving), at("/data", copy));
    expect(copied).toMatchObject({ benches: 1, damaged: [] });
    const after = value?.count ?? 0;
    expect(after).toBeGreaterThan(before);
    // Also after a power cut right behind it.
    for (const found of [copy, copy.afterPowerCut(() => 0)]) {
      const { value: kept, notices } = await (await openTallies(found)).load("home");
      expect(notices).toEqual([]);
      expect(kept?.count).toBeGreaterThanOrEqual(before);
      expect(kept?.count).toBeLessThanOrEqual(after);
      if (kept !== undefined) expect(isWhole(kept)).toBe(true);
    }
  }
});

test("a run that moves to the archive meanwhile is in the copy, in one place at least", async () => {
  const disk = new MemoryDisk();
  const store = await openTallies(disk);
  await store.load("home");
  const full = nextTally(undefined);
  await store.commit("home", undefined, full);
  let moved = false;
  const moving: FileSystem = Object.assign(Object.create(disk) as FileSystem, {
    async list(path: string) {
      // As late as can be before the archive is looked at.
      if (path.endsWith("/archive") && !moved) {
        moved = true;
        await store.archive("home", "run 1", { rolls: ["A"] });
        await store.commit("home", full, nextTally(full));
      }
      return disk.list(path);
    },
    read: (path: string) => disk.read(path),
  });
  const copy = new MemoryDisk();
  copy.put("/.", "");
  await copyData(at("/data", moving), at("/data", copy));
  const again = await openTallies(copy);
  expect((await again.load("home")).value).toEqual(full);
  expect(await again.recall("home", "run 1")).toEqual({ rolls: ["A"] });
});

test("while another process commits as fast as it can, every backup can be gone on with", () =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    const child = startChild("commit-in-a-loop.ts", data);
    try {
      await child.until((lines) => lines.length > 5);
      for (let round = 0; round < 12; round += 1) {
        const acknowledged = Number(child.lines.at(-1));
        const into = join(folder, `backup-${round}`);
        expect(await backUp(data, into)).toMatchObject({ benches: 1, damaged: [] });
        const store = await openFileStore({ directory: into, schema: tallySchema });
        const { value, notices } = await store.load("home");
        expect(notices).toEqual([]);
        expect(value?.count).toBeGreaterThanOrEqual(acknowledged);
        if (value === undefined) throw new Error("nothing was copied");
        expect(isWhole(value)).toBe(true);
        await store.commit("home", value, nextTally(value));
        await store.close();
      }
      const first = Number(child.lines.at(-1));
      await child.until((lines) => Number(lines.at(-1)) > first + 20);
    } finally {
      child.kill("SIGKILL");
      await child.ended();
    }
  }));

test("npm run backup beside a running program: the copy is its bench, its owner's alone", () =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    const into = join(folder, "copy");
    const program = await startProgram([], "start", { WETSIDE_DATA: data });
    try {
      program.say("bottle blix 1 litre mixed today", "start blix for 2 hours tank north", "ready");
      program.say("in");
      await program.until((lines) => lines.some((line) => line.includes("blix in at")));
      const told = await runProgram([into], [], "backup", { WETSIDE_DATA: data });
      expect(told).toMatchObject({ code: 0, complaint: "" });
      expect(told.output).toContain("Backed up: 1 bench, ");
      expect(told.output).not.toContain(folder);
    } finally {
      await program.terminate();
    }
    expect(await readdir(into)).toEqual(["benches"]);
    expect((await stat(into)).mode & 0o777).toBe(0o700);
    const again = await startProgram([], "start", { WETSIDE_DATA: into });
    try {
      again.say("bottles", "left");
      await again.until((lines) => lines.some((line) => /North: blix, .*left/.test(line)));
      expect(again.lines.join("\n")).toContain("Acorn");
      expect(again.lines.join("\n")).not.toContain("damaged");
    } finally {
      await again.terminate();
    }
  }));

test("a damaged bench is copied as it is, and that is said with exit code 1", () =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    await runProgram(["--data", data, "--simulate", "2026-11-28T19:30:00Z"], ["note one"]);
    const bench = join(data, "benches/home");
    const [snapshot = ""] = (await readdir(bench)).filter((name) => name.startsWith("snapshot"));
    await writeFile(join(bench, snapshot), "spoilt");
    const told = await runProgram([join(folder, "copy")], [], "backup", { WETSIDE_DATA: data });
    expect(told.code).toBe(1);
    expect(told.output).toContain("The bench in benches/home is damaged");
    expect(await readFile(join(folder, "copy/benches/home", snapshot), "utf8")).toBe("spoilt");
  }));

const refusals = [
  { words: [], code: 2, says: "Say where" },
  { words: ["a", "b"], code: 2, says: "Say where" },
  { words: ["--help"], code: 2, says: "Say where" },
  { words: ["{data}/inside"], code: 1, says: "cannot lie in the data folder" },
  { words: ["{data}/.."], code: 1, says: "nor around it" },
  { words: ["{folder}/full"], code: 1, says: "something in that folder" },
];

test("a wrong place for a backup is refused in a sentence, and nothing is written", () =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    await runProgram(["--data", data, "--simulate", "2026-11-28T19:30:00Z"], ["note one"]);
    await mkdir(join(folder, "full"));
    await writeFile(join(folder, "full/mine"), "not ours");
    for (const { words, code, says } of refusals) {
      const given = words.map((word) => word.replace("{data}", data).replace("{folder}", folder));
      const ended = await runProgram(given, [], "backup", { WETSIDE_DATA: data });
      expect([words, ended.code, ended.output]).toEqual([words, code, ""]);
      expect(ended.complaint).toContain(says);
      expect(ended.complaint).not.toContain(folder);
      expect((await readdir(folder)).toSorted()).toEqual(["data", "full"]);
    }
  }));

test("a folder without benches is refused", () =>
  withFolder(async (folder) => {
    await expect(backUp(join(folder, "none"), join(folder, "copy"))).rejects.toThrow(
      "no benches to back up",
    );
    expect(await readdir(folder)).toEqual([]);
  }));
