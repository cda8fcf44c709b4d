import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Files, filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { at } from "../support/runs.ts";

const commands = await loadCommands();

const refuses = (code: string) => () => Promise.reject(Object.assign(new Error("no"), { code }));

/** A bench on a real disk, some of whose work with files the disk refuses. */
async function onDisk(
  broken: (own: Files) => Partial<Files>,
  use: (say: (...texts: readonly string[]) => Promise<Reply>, folder: string) => Promise<void>,
): Promise<void> {
  await withFolder(async (folder) => {
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
  });
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

test("pictures the disk would not take are told, and the bench that was restored goes on", () =>
  onDisk(
    () => ({ putPicture: refuses("ENOSPC") }),
    async (say, folder) => {
      await say("use the demo", "bottle blix 1 litre mixed today called Banjo");
      await filesIn(folder).putPicture("run-1-summary.png", new Uint8Array([1, 2, 3]));
      await filesIn(folder).putPicture("season-2026-11-28.png", new Uint8Array([4, 5, 6]));
      const made = await say("export everything");
      const name = String(made.facts.file).split("/").at(-1);
      await say("rename Banjo to Lantern");
      const back = await say(`restore from ${name}`, "yes");
      expect(back.title).toContain("Restored from");
      expect(back.cautions.join(" ")).toContain("would not take");
      expect((await say("bottles")).title).toContain("Banjo");
      expect((await say("note it goes on")).kind).toBe("reply");
    },
  ));
