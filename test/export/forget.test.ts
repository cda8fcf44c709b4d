import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { Command } from "../../src/commands/define-command.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import type { Instant } from "../../src/domain/units/quantity.ts";
import { filesIn } from "../../src/export/files.ts";
import { type Reply, valuesOf } from "../../src/reply/reply.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { at } from "../support/runs.ts";

let commands: readonly Command[] = [];
beforeAll(async () => {
  commands = await loadCommands();
});

type Speaker = {
  say(who: string, ...texts: readonly string[]): Promise<Reply>;
  /** Names of files in which a text stands, however it is written. */
  where(text: string): Promise<readonly string[]>;
  readonly record: BenchRecord;
};

/** A bench on a real disk, and people who speak to it a minute apart. */
async function onDisk(work: (bench: Speaker, folder: string) => Promise<void>): Promise<void> {
  await withFolder(async (folder) => {
    const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
    const { keeper } = await BenchKeeper.open(
      "home",
      { zone: "Europe/Lisbon" },
      store,
      commands,
      filesIn(folder),
    );
    let now: Instant = at(0);
    const bench: Speaker = {
      get record() {
        return keeper.record;
      },
      async say(who, ...texts) {
        let reply: Reply | undefined;
        for (const text of texts) {
          now = at((now - at(0)) / 1000 + 60);
          await keeper.tick(now, () => undefined);
          const standing = who === "Zdenka" ? "member" : "owner";
          reply = await keeper.hear({ text, who, standing }, now);
        }
        if (reply === undefined) throw new Error("nothing was said");
        return reply;
      },
      async where(text) {
        const names = await readdir(folder, { recursive: true, withFileTypes: true });
        const found: string[] = [];
        for (const entry of names) {
          if (!entry.isFile()) continue;
          const path = join(entry.parentPath, entry.name);
          const bytes = await readFile(path);
          const inside = bytes.toString("utf8").toLowerCase().includes(text.toLowerCase());
          if (inside || path.slice(folder.length).toLowerCase().includes(text.toLowerCase())) {
            found.push(path.slice(folder.length));
          }
        }
        return found;
      },
    };
    try {
      await work(bench, folder);
    } finally {
      await store.close();
    }
  });
}

/** INVENTED: ten runs by two people, so that some stand in files; notes, a label, a reminder. */
async function season(bench: Speaker, folder: string): Promise<void> {
  await bench.say("Ines", "use the demo", "bottle stabilizer 1 litre mixed today called Acorn");
  await bench.say("Zdenka", "bottle blix 1 litre mixed today called Banjo");
  for (let n = 1; n <= 10; n += 1) {
    const who = n % 2 === 0 ? "Zdenka" : "Ines";
    await bench.say(who, `start stabilizer tank kestrel${n} from Acorn`, "in", `note zzsecret${n}`);
    await bench.say(who, "out", `zzdifferent${n}`);
    expect(Object.values(bench.record.bench.runs).every((run) => run.endedAt !== undefined)).toBe(
      true,
    );
  }
  await bench.say("Zdenka", "sign in Banjo");
  await bench.say("Zdenka", "remind me friday 8pm to order zzorder");
  await bench.say("Ines", "tank zdenka has two 35 mm reels of 300 ml each");
  await bench.say("Ines", "start stabilizer tank plover from Acorn", "in");
  await bench.say("Ines", "note Zdenka's reel was wet, and Zdenkas lid", "out", "yes");
  await bench.say("Ines", "export everything");
  await mkdir(join(folder, "pictures"), { recursive: true });
  await writeFile(join(folder, "pictures", "run-1.svg"), "<text>Zdenka</text>");
  await mkdir(join(folder, "records"), { recursive: true });
  await writeFile(join(folder, "records", "run-1.md"), "# By Zdenka, note zzsecret1");
}

test("a person who is forgotten is in no byte of the folder, and the work stays", () =>
  onDisk(async (bench, folder) => {
    await season(bench, folder);
    expect((await bench.where("zdenka")).length).toBeGreaterThan(3);
    const bottles = Object.keys(bench.record.bench.bottles);
    const runs = bench.record.bench.pastRuns.length;

    const asked = await bench.say("Ines", "forget everything about Zdenka");
    expect(valuesOf(asked)).toMatchObject({ runs: 5, bottles: 1, reminders: 1, notes: 5 });
    await bench.say("Ines", "yes");
    await bench.say("Ines", "forget everything about Zdenka");
    const meant = await bench.say("Ines", "well go on and do that");
    expect(meant.title).toBe("Nothing was forgotten.");
    expect((await bench.where("zdenka")).length).toBeGreaterThan(3);

    await bench.say("Ines", "forget everything about Zdenka");
    const done = await bench.say("Ines", "Forget Zdenka for good.");
    expect(done.title).toContain("Forgotten");
    expect(await bench.where("zdenka")).toEqual([]);
    expect(await bench.where("zzorder")).toEqual([]);
    // Every second run was hers, with its note and its answer; the others keep theirs.
    for (const word of ["zzsecret2", "zzsecret8", "zzdifferent10"]) {
      expect(await bench.where(word), word).toEqual([]);
    }
    for (const word of ["zzsecret1", "zzdifferent9"]) {
      expect(await bench.where(word), word).not.toEqual([]);
    }
    expect(Object.keys(bench.record.bench.bottles)).toEqual(bottles);
    expect(bench.record.bench.pastRuns).toHaveLength(runs);
    expect(await bench.where("Ines")).not.toEqual([]);
    expect((await bench.say("Ines", "all runs with someone")).facts.count).toBe(5);
    expect((await bench.say("Ines", "all runs")).facts.count).toBe(11);
  }));

test("who forgets themselves is gone as well, and may begin anew", () =>
  onDisk(async (bench, folder) => {
    await season(bench, folder);
    await bench.say("Zdenka", "forget everything about me", "forget zdenka for good");
    expect(await bench.where("zdenka")).toEqual([]);
    expect(bench.record.threads).not.toHaveProperty("Zdenka");
    expect(bench.record.bench.inUse).toEqual({});
  }));

test("a bench that is forgotten leaves none of its words behind", () =>
  onDisk(async (bench, folder) => {
    await season(bench, folder);
    const words = [
      ...Array.from({ length: 10 }, (_, n) => [`kestrel${n + 1}`, `zzsecret${n + 1}`]).flat(),
      ...["zzdifferent", "zzorder", "zdenka", "ines", "acorn", "banjo", "plover", "saltmarsh"],
    ];
    for (const word of words) expect(await bench.where(word), word).not.toEqual([]);
    await bench.say("Bruno", "forget the whole bench", "forget this whole bench for good");
    for (const word of words) expect(await bench.where(word), word).toEqual([]);
    const files = await readdir(folder);
    expect(files.filter((name) => /exports|pictures|records/.test(name))).toEqual([]);
    expect((await bench.say("Bruno", "all runs")).title).toBe("No runs yet.");
  }));

test("nobody is forgotten while film is in a bath, and nobody who was never there", () =>
  onDisk(async (bench) => {
    await bench.say("Ines", "use the demo", "start developer tank north", "in");
    const busy = await bench.say("Ines", "forget the whole bench");
    expect(busy.facts.reason).toBe("run-open");
    await bench.say("Ines", "stop");
    await bench.say("Ines", "yes");
    const unknown = await bench.say("Ines", "forget everything about Zelda");
    expect(unknown.facts.reason).toBe("no-such-person");
  }));
