import { execFileSync } from "node:child_process";
import { copyFile, mkdir, symlink, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { ExportError } from "../../src/export/export-error.ts";
import { filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { archiveOf } from "../support/hostile-archive.ts";
import { at } from "../support/runs.ts";

const commands = await loadCommands();
const bench = JSON.stringify(newRecord("home", "UTC"));

/** A bench, and a folder exports that others have put things into. */
async function withExports(
  put: (exports: string) => Promise<void>,
  use: (say: (text: string) => Promise<Reply>) => Promise<void>,
): Promise<void> {
  await withFolder(async (folder) => {
    const exports = join(folder, "exports");
    await mkdir(exports);
    await archiveOf(join(exports, "whole.zip"), { bench });
    await put(exports);
    const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
    const place = { zone: "UTC" };
    const { keeper } = await BenchKeeper.open("home", place, store, commands, filesIn(folder));
    let second = 0;
    await use((text) => {
      second += 20;
      return keeper.hear({ text, who: "Ines", standing: "owner" }, at(second));
    });
    await store.close();
  });
}

const pipe = (path: string): void => void execFileSync("mkfifo", [path]);

test.each<[string, (exports: string) => Promise<void>]>([
  ["a link to nowhere", (exports) => symlink(join(exports, "gone"), join(exports, "x.zip"))],
  ["a link out of the folder", (exports) => symlink("/etc/hostname", join(exports, "x.zip"))],
  ["a link to a link", (exports) => symlink("x.zip", join(exports, "x.zip"))],
  ["a pipe", async (exports) => pipe(join(exports, "x.zip"))],
  ["a folder", async (exports) => void (await mkdir(join(exports, "x.zip")))],
  ["a name that begins with a point", (exports) => writeFile(join(exports, ".x.zip"), "")],
])("%s is no archive, and the others are there", (_, put) =>
  withExports(put, async (say) => {
    expect((await say("exports")).facts.archives).toEqual(["whole.zip"]);
    expect((await say("eyes")).title).toMatch(/water|eyes/i);
    expect((await say("restore from x.zip")).facts.reason).toBe("no-archive");
    const only = await say("restore everything");
    expect(only.title).toContain("Restored from whole.zip");
  }),
);

test("many pipes hold nothing up, nor does one that came after the look", () =>
  withFolder(async (folder) => {
    await mkdir(join(folder, "exports"));
    for (let n = 0; n < 8; n += 1) pipe(join(folder, "exports", `${n}.zip`));
    const files = filesIn(folder);
    expect(await files.exports()).toEqual([]);
    for (let n = 0; n < 8; n += 1) {
      await expect(files.open(`${n}.zip`)).rejects.toBeInstanceOf(ExportError);
      await expect(files.read(`${n}.zip`)).rejects.toBeInstanceOf(ExportError);
    }
  }));

test("a pipe or a link where an archive or a picture is written does not take it", () =>
  withExports(
    async (exports) => {
      pipe(join(exports, "home-2026-11-28-1930.zip.part"));
      await mkdir(join(exports, "../pictures"));
      pipe(join(exports, "../pictures/season-2026-11-28.png"));
    },
    async (say) => {
      const made = await say("export everything");
      expect(made.facts).toMatchObject({ file: "exports/home-2026-11-28-1930.zip", pictures: 0 });
      expect((await say("exports")).facts.archives).toHaveLength(2);
    },
  ));

const named = ["home (1).zip", "My Bench.ZIP", "bancada às três.zip"];

test("an archive is listed and taken by any name a browser or a person gives it", () =>
  withExports(
    async (exports) => {
      for (const name of named) await copyFile(join(exports, "whole.zip"), join(exports, name));
    },
    async (say) => {
      const { archives } = (await say("exports")).facts;
      expect((archives as string[]).toSorted()).toEqual([...named, "whole.zip"].toSorted());
      for (const [text, name] of [
        ["restore from home (1).zip", "home (1).zip"],
        ["restore from exports/home (1).zip", "home (1).zip"],
        ["restore from my bench.zip", "My Bench.ZIP"],
        ["restore from bancada às três.zip", "bancada às três.zip"],
      ]) {
        expect([text, (await say(text ?? "")).title]).toEqual([
          text,
          expect.stringContaining(`Restored from ${name}`),
        ]);
      }
    },
  ));

test("two names that are said alike are told apart as they are written", () =>
  withExports(
    async (exports) => {
      for (const name of ["home (1).zip", "home 1.zip", "home-1.zip"]) {
        await copyFile(join(exports, "whole.zip"), join(exports, name));
      }
    },
    async (say) => {
      expect((await say("restore from home (1).zip")).title).toContain("home (1).zip");
      expect((await say("restore from home-1.zip")).title).toContain("home-1.zip");
      expect((await say("restore from home1.zip")).facts.archives).toHaveLength(3);
    },
  ));
