import { chmod, mkdir, readdir, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { closeToOthers } from "../../src/store/close-to-others.ts";
import { withFolder } from "../support/child.ts";
import { runProgram } from "../support/program.ts";

const mode = async (path: string): Promise<number> => (await stat(path)).mode & 0o777;

/** Every folder and file in a data folder, with its mode. */
async function modes(folder: string): Promise<{ folders: number[]; files: number[] }> {
  const all = await readdir(folder, { recursive: true, withFileTypes: true });
  const of = (wanted: "isDirectory" | "isFile") =>
    Promise.all(
      all.filter((one) => one[wanted]()).map((one) => mode(join(one.parentPath, one.name))),
    );
  return { folders: await of("isDirectory"), files: await of("isFile") };
}

/** A session that leaves every kind of file behind: journal, snapshot, archive, picture. */
const SESSION = [
  "start blix for 6 minutes at 38 C tank north",
  "@+31s",
  "in",
  "temperature 37.6",
  "chart",
  "note one thing",
  "stop",
];
const live = (data: string, umask = process.umask()) => {
  const before = process.umask(umask);
  return runProgram(
    ["--data", data, "--simulate", "2026-11-28T19:30:00Z", "--zone", "Europe/Lisbon"],
    SESSION,
  ).finally(() => process.umask(before));
};

// Windows keeps rights another way; the folder lies in the user's own there.
describe.skipIf(process.platform === "win32")("rights of the data folder", () => {
  test("a folder that is made is its owner's alone, with all in it, whatever the umask", () =>
    withFolder(async (folder) => {
      for (const umask of [0o000, 0o022, 0o077]) {
        const data = join(folder, `made-${umask}`);
        expect(await live(data, umask)).toMatchObject({ code: 0, complaint: "" });
        expect(await mode(data)).toBe(0o700);
        const { folders, files } = await modes(data);
        expect(new Set(folders)).toEqual(new Set([0o700]));
        expect(new Set(files)).toEqual(new Set([0o600]));
        expect(await readdir(join(data, "pictures"))).not.toEqual([]);
      }
    }));

  test("one that others could look into is closed to them, and that is said once", () =>
    withFolder(async (folder) => {
      const data = join(folder, "wide");
      await live(data);
      for (const path of [data, join(data, "benches"), join(data, "pictures")]) {
        await chmod(path, 0o755);
      }
      const first = await live(data);
      expect(first.output).toContain("I have closed it to them");
      expect(await mode(data)).toBe(0o700);
      expect(await mode(join(data, "benches"))).toBe(0o700);
      expect(await mode(join(data, "pictures"))).toBe(0o700);
      expect((await live(data)).output).not.toContain("closed it");
    }));

  test("an empty one that was there before is closed", () =>
    withFolder(async (folder) => {
      const data = join(folder, "empty");
      await mkdir(data);
      await chmod(data, 0o777);
      await live(data);
      expect(await mode(data)).toBe(0o700);
    }));

  test("one that holds other things keeps its rights, and what is ours in it has none for others", () =>
    withFolder(async (folder) => {
      const data = join(folder, "shared");
      await mkdir(data);
      await chmod(data, 0o755);
      await writeFile(join(data, "other"), "not ours");
      await chmod(join(data, "other"), 0o644);
      await live(data);
      expect(await mode(data)).toBe(0o755);
      expect(await mode(join(data, "other"))).toBe(0o644);
      expect(await mode(join(data, "benches"))).toBe(0o700);
      await chmod(join(data, "benches"), 0o755);
      await live(data);
      expect(await mode(join(data, "benches"))).toBe(0o700);
    }));

  test("a folder with nothing amiss says nothing", () =>
    withFolder(async (folder) => {
      expect(await closeToOthers(folder)).toEqual([]);
    }));
});
