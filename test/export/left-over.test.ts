import { existsSync } from "node:fs";
import { mkdir, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Files, filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { at } from "../support/runs.ts";
import { smallPng } from "../support/small-picture.ts";

const commands = await loadCommands();

const refuses = (code: string) => () => Promise.reject(Object.assign(new Error("no"), { code }));

/** A bench on a real disk, some of whose work with files the disk refuses. */
async function onDisk(
  broken: (own: Files) => Partial<Files>,
  use: (say: (...texts: readonly string[]) => Promise<Reply>, folder: string) => Promise<void>,
): Promise<void> {
  await withFolder((folder) => withBench(folder, broken, use));
}

async function withBench(
  folder: string,
  broken: (own: Files) => Partial<Files>,
  use: (say: (...texts: readonly string[]) => Promise<Reply>, folder: string) => Promise<void>,
): Promise<void> {
  const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
  const own = filesIn(folder);
  const files = { ...own, ...broken(own) };
  const place = { zone: "Europe/Lisbon" };
  const { keeper } = await BenchKeeper.open("home", place, store, commands, files);
  let second = 0;
  try {
    await use(async (...texts) => {
      let reply: Reply | undefined;
      for (const text of texts) {
        second += 20;
        reply = await keeper.hear({ text, who: "Ines", standing: "owner" }, at(second));
      }
      if (reply === undefined) throw new Error("nothing was said");
      return reply;
    }, folder);
  } finally {
    await store.close();
  }
}

test("a folder that keeps its files does not keep the bench from being forgotten, and it is told", () =>
  onDisk(
    () => ({ clear: refuses("EACCES") }),
    async (say) => {
      await say("use the demo", "bottle blix 1 litre mixed today called Banjo");
      const gone = await say("forget the whole bench", "forget this whole bench for good");
      expect(gone.title).toContain("This bench is forgotten");
      expect(gone.cautions.join(" ")).toContain("by hand");
      expect(gone.facts.left).toBe(true);
      // The bench goes on as the new one.
      expect((await say("bottles")).title).not.toContain("Banjo");
      expect((await say("note it goes on")).kind).toBe("reply");
    },
  ));

test("pictures the disk would not put in place are told, and come into it at the next start", () =>
  withFolder(async (folder) => {
    const pictures = join(folder, "pictures");
    await withBench(folder, refusing, async (say) => {
      await say("use the demo", "bottle blix 1 litre mixed today called Banjo");
      await mkdir(pictures);
      await writeFile(join(pictures, "season-2026-11-28.png"), smallPng(new Uint8Array([4, 5])));
      const made = await say("export everything");
      await writeFile(join(pictures, "season-2026-11-29.png"), smallPng(new Uint8Array([6])));
      const name = String(made.facts.file).split("/").at(-1);
      await say("rename Banjo to Lantern");
      const back = await say(`restore from ${name}`, "yes");
      expect(back.title).toContain("Restored from");
      expect(back.cautions.join(" ")).toContain("at my next start");
      expect((await say("bottles")).title).toContain("Banjo");
      expect((await say("note it goes on")).kind).toBe("reply");
    });
    expect(await readdir(pictures)).toHaveLength(2);
    await withBench(
      folder,
      () => ({}),
      async (say) => {
        expect((await say("bottles")).title).toContain("Banjo");
      },
    );
    expect(await readdir(pictures)).toEqual(["season-2026-11-28.png"]);
  }));

const refusing = (own: Files): Partial<Files> => ({
  // At the start there is nothing to take.
  takePictures: async (from) => {
    if (existsSync(from)) throw Object.assign(new Error("no"), { code: "EACCES" });
    await own.takePictures(from);
  },
});
