import { cp, mkdir, readdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { performExport } from "../../src/conversation/perform/export.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { filesIn, PICTURES } from "../../src/export/files.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { archivedBench } from "./archived-bench.ts";
import { withFolder } from "./child.ts";
import { readLines, startProgram } from "./program.ts";
import { evening } from "./runs.ts";
import { seeded } from "./seeded.ts";
import { smallPng } from "./small-picture.ts";

export type RewriteFigures = {
  readonly kills: number;
  /** Kills after which the bench was still the old one, and those after which it was the new. */
  readonly old: number;
  readonly restored: number;
};

/** So many that a thread of its own restores them, and that a new generation follows at once. */
const RUNS = 1100;
const NOTES = 12;
const ZIP = "home-2026-11-28-1930.zip";

const pictureOf = (bench: string): string => `season-${bench.toLowerCase()}.png`;

/** INVENTED: a bench with a long past called "Before", and beside it an archive of it called "Kept". */
async function furnish(folder: string): Promise<void> {
  const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
  await store.load("home");
  const record = await archivedBench(folder, "home", RUNS);
  const named = (name: string): BenchRecord => ({ ...record, bench: { ...record.bench, name } });
  const now = named("Before");
  await store.commit("home", undefined, now);
  const bench = { id: "home", record: named("Kept"), store, files: filesIn(folder) };
  const pictures = join(folder, "pictures");
  await mkdir(pictures, { mode: 0o700 });
  await writeFile(join(pictures, pictureOf("Kept")), smallPng(new Uint8Array([1])));
  await performExport(bench, ZIP, evening, () => undefined);
  await rename(join(pictures, pictureOf("Kept")), join(pictures, pictureOf("Before")));
  await store.close();
}

/** What is found on the disk after a kill, and that nothing of it is missing or left over. */
async function found(folder: string, where: string) {
  const store = await openFileStore<BenchRecord>({ directory: folder, schema: recordSchema });
  try {
    const { value, notices } = await store.load("home");
    const odd = notices.filter((notice) => !notice.includes("cut short"));
    if (value === undefined || odd.length > 0) throw new Error(`${where}: ${odd.join(" ")}`);
    for (const { id } of value.bench.pastRuns) {
      if ((await store.recall("home", id)) === undefined)
        throw new Error(`${where}: ${id} is gone`);
    }
    const folders = await readdir(join(folder, "benches"));
    if (folders.join() !== "home") throw new Error(`${where}: ${folders.join()} are left`);
    await filesIn(folder).takePictures(store.besidePath?.("home", PICTURES) ?? "");
    const pictures = (await readdir(join(folder, "pictures"))).join();
    if (pictures !== pictureOf(value.bench.name)) {
      throw new Error(`${where}: the bench is ${value.bench.name}, its pictures are ${pictures}`);
    }
    return { name: value.bench.name, notes: value.bench.notes.map(({ text }) => text) };
  } finally {
    await store.close();
  }
}

/**
 * Kills the program again and again, at seeded moments, while a bench with a long past is restored
 * and spoken on: afterwards the bench is the old one or the new one, whole, with every word that
 * was answered, each once.
 *
 * @throws when that does not hold, with the seed and the kill
 */
export const killRewrites = (kills: number, seed: number): Promise<RewriteFigures> =>
  withFolder(async (furnished) => {
    await furnish(furnished);
    const chance = seeded(seed);
    let old = 0;
    for (let kill = 0; kill < kills; kill += 1) {
      await withFolder(async (folder) => {
        await cp(furnished, folder, { recursive: true });
        const where = `seed ${seed}, kill ${kill}`;
        const words = Array.from({ length: NOTES }, (_, n) => `the lid of tank ${n} leaks`);
        const said = [`restore from ${ZIP}`, "yes", ...words.map((text) => `note ${text}`)];
        const program = await startProgram(["--data", folder, "--json", "--zone", "UTC"]);
        program.say(...said);
        // A third while it restores, the others among the words after that.
        const lines = chance() < 1 / 3 ? 1 : 2 + Math.floor(chance() * NOTES);
        await program.until((printed) => printed.length >= lines);
        await wait(lines === 1 ? chance() * 1200 : chance() * 4);
        await program.kill();
        const whole = program.lines.filter((line) => line.startsWith("{") && line.endsWith("}"));
        const answered = readLines(whole.join("\n")).length;
        const { name, notes } = await found(folder, where);
        if (name === "Before") old += 1;
        if (name !== (answered >= 2 ? "Kept" : name)) {
          throw new Error(`${where}: ${answered} answers, and the bench is ${name}`);
        }
        const kept = words.slice(0, notes.length);
        if (notes.join() !== kept.join() || notes.length < answered - 2) {
          throw new Error(`${where}: ${answered} answers, and ${notes.length} notes`);
        }
      });
    }
    return { kills, old, restored: kills - old };
  });
